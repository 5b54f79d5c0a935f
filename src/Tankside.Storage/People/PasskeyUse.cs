namespace Tankside.Storage.People;

/// <summary>What is kept of a passkey beside what the framework keeps.</summary>
public static class PasskeyUse
{
    /// <summary>The column that says when it last let somebody in.</summary>
    public const string LastUsedAt = "LastUsedAt";
}
