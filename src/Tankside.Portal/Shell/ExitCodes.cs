namespace Tankside.Portal.Shell;

/// <summary>What the program says on leaving.</summary>
public static class ExitCodes
{
    public const int Good = 0, Failed = 1, WrongUsage = 2;
}
