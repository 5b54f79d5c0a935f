namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>Where a class stands with its reading.</summary>
public enum ClassStep
{
    Form,
    Ask,
    Said,
}
