using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>What a diagnosis says on the telephone: what it looks like, on what grounds, and what to ask next.</summary>
public static class DiagnosisWords
{
    /// <summary>"Looks like the chiller: the water rises with pump and air on, chiller off."</summary>
    public static string Of(Diagnosis diagnosis)
    {
        var grounds = string.Join(" with ", new[] { Of(diagnosis.Course), Of(diagnosis.Known) }.Where(part => part.Length > 0));
        var who = diagnosis.Leading is { } leading
            ? leading == Suspect.NothingWrong ? "Probably nothing is wrong" : $"Looks like {Of(leading)}"
            : $"Could be {Listed([.. diagnosis.Remaining.Select(r => Of(r.Suspect))])}";
        return grounds.Length > 0 ? $"{who}: {grounds}." : $"{who}.";
    }

    /// <summary>The short end of a reason; nothing where no fault leads, or where the sentence has named it already.</summary>
    public static string EndOf(Evidence evidence) => evidence.LooksLike switch
    {
        null or Suspect.NothingWrong => "",
        Suspect.CoilIced when evidence is IceEvidence => "",
        { } suspect => $"; looks like {Of(suspect)}",
    };

    public static string Of(Suspect suspect) => suspect switch
    {
        Suspect.ChillerDead => "the chiller itself",
        Suspect.CoilIced => "an iced coil",
        Suspect.RoomOrSun => "room heat, sun or a choked grille",
        Suspect.SetPoint => "a wrong set point or unit",
        Suspect.Probe => "a misplaced probe",
        Suspect.BlockedFlow => "a blocked hose",
        Suspect.PlugOrBreaker => "this tank's plug or breaker",
        Suspect.PowerCut => "a power cut",
        Suspect.PumpStopped => "the pump",
        Suspect.AirStopped => "the air pump or stone",
        Suspect.Thermometer => "a wrong thermometer",
        Suspect.WaterChange => "refill water that was too warm or too cold",
        Suspect.NothingWrong => "nothing wrong",
    };

    public static string Of(NextQuestion question) => question switch
    {
        NextQuestion.ChillerRunning => "Is the chiller running: does it hum, is its grille warm?",
        NextQuestion.WaterMoving => "Is the water moving?",
        NextQuestion.Bubbles => "Are there bubbles?",
        NextQuestion.IceOnCoil => "Is there ice on the coil?",
        NextQuestion.LevelRight => "Is the water up to its mark?",
        NextQuestion.LightsOn => "Are the lights on in the room?",
        NextQuestion.DisplayLit => "Is the chiller's display lit?",
        NextQuestion.DisplayAgrees => "Does the chiller's display show about the same as the thermometer in the tank?",
        NextQuestion.SetAsAgreed => "Read me the set screen: does it say what we agreed, in the right unit?",
        NextQuestion.ProbeInPlace => "Is the probe under water, mid-tank, where the water moves?",
        NextQuestion.ThermometerRight => "Put the thermometer in a glass of ice and water for five minutes: does it say 32 °F (0 °C)?",
        NextQuestion.HeatNear => "Is sun on the glass, a heater near, the room hot, or the grille dusty or against the wall?",
        NextQuestion.RefillFitted => "Was all the water put in lately at the tank's temperature?",
    };

    private static string Of(WaterCourse course) => course switch
    {
        WaterCourse.Unknown => "",
        WaterCourse.AtSetPoint => "the water is at its set point",
        WaterCourse.Warm => "the water is over its set point",
        WaterCourse.Cool => "the water is under its set point",
        WaterCourse.Rising => "the water rises",
        WaterCourse.ComingBack => "the water is coming back",
        WaterCourse.SlowDrop => "the water sank slowly under its set point",
        WaterCourse.DropThenRise => "the water sank slowly under its set point and then rose",
        WaterCourse.FarBelow => "the water is far colder than the chiller aims for",
        WaterCourse.SuddenDrop => "the water fell faster than a chiller cools",
        WaterCourse.SteadyElsewhere => "the water is steady at a wrong number",
        WaterCourse.SteadySinceCleaning => "the water is steady at a wrong number since somebody cleaned",
        WaterCourse.DayPeaks => "the water is warm in the afternoons and cool in the mornings",
        WaterCourse.NeverChanges => "the thermometer shows the very same number again and again",
        WaterCourse.JumpAtChange => "the water jumped at a water change",
    };

    /// <summary>"pump and air on, chiller off".</summary>
    private static string Of(IReadOnlyDictionary<NextQuestion, bool> known)
    {
        (NextQuestion Question, string Part)[] parts =
            [(NextQuestion.WaterMoving, "pump"), (NextQuestion.Bubbles, "air"), (NextQuestion.ChillerRunning, "chiller")];
        var on = parts.Where(p => known.TryGetValue(p.Question, out var yes) && yes).Select(p => p.Part).ToList();
        var off = parts.Where(p => known.TryGetValue(p.Question, out var yes) && !yes).Select(p => p.Part).ToList();
        return string.Join(", ", new[] { Together(on, "on"), Together(off, "off"), known.TryGetValue(NextQuestion.IceOnCoil, out var ice) ? ice ? "ice on the coil" : "no ice" : "" }
            .Where(words => words.Length > 0));
    }

    private static string Together(List<string> parts, string state) => parts.Count == 0 ? "" : $"{Listed(parts, "and")} {state}";

    private static string Listed(IReadOnlyList<string> words, string last = "or") =>
        words.Count == 1 ? words[0] : $"{string.Join(", ", words.SkipLast(1))} {last} {words[^1]}";
}
