using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>What the messages about a mark are made of.</summary>
/// <param name="Contact">Who answers, with the telephone number; null where none is known.</param>
public sealed record SweepMessage(AreaSweep Sweep, string Programme, ProgrammeClock Clock, string? Contact);

/// <summary>The words of a mark in one language: what happened, and what to do first. Plugs are for an adult, and shut buildings stay shut.</summary>
public abstract class SweepTexts
{
    public static readonly SweepTexts English = new EnglishSweepTexts(), Spanish = new SpanishSweepTexts();

    public static SweepTexts In(string? language) => language == "es" ? Spanish : English;

    protected abstract CultureInfo Culture { get; }

    public abstract string Subject(AreaSweep sweep);

    /// <summary>"Power is out in north since Fri 14 May 17:30, expected back about Fri 14 May 20:00."</summary>
    public abstract string Happened(SweepMessage message);

    /// <summary>What to do first, in this order.</summary>
    public abstract IReadOnlyList<string> Steps(SweepReason reason);

    public abstract string Letter(SweepMessage message, string name, Uri link);

    /// <summary>For a telephone: with the person's own link, or asking for an answer in words.</summary>
    public abstract string ForTelephone(SweepMessage message, string? link);

    protected string When(SweepMessage message, DateTime utc) => message.Clock.Local(utc).ToString("ddd d MMM HH:mm", Culture);

    protected string Numbered(SweepReason reason) => string.Join("\n", Steps(reason).Select((step, i) => $"{i + 1}. {step}"));
}
