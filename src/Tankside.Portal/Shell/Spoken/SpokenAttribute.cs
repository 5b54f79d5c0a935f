namespace Tankside.Portal.Shell;

/// <summary>On a page, or an address that answers with one, whose every text comes through <see cref="Say"/>. All others are English as a whole.</summary>
[AttributeUsage(AttributeTargets.Class)]
public sealed class SpokenAttribute : Attribute;
