namespace Tankside.Portal.Shell;

/// <summary>What a number of a page is made of; <see cref="Opens"/> shows it.</summary>
/// <param name="Inputs">Each by its name, as it was used for the number on the page.</param>
/// <param name="Formula">How they become the number, in a sentence or two.</param>
/// <param name="Source">Whose rule it is, and where it is written out. English, as papers are named.</param>
/// <param name="Subject">The subject of the settings that it goes by; null where it goes by none.</param>
public sealed record Opening(IReadOnlyList<(string Name, string Value)> Inputs, string Formula, string Source, string? Subject = null);
