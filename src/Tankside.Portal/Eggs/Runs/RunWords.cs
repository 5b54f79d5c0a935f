using Tankside.Hatchery.Eggs.Runs;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>A run in words.</summary>
internal static class RunWords
{
    public static string Why(this DropReason why, RunView view) => why switch
    {
        DropReason.NoPlace => "Nobody entered where the school is. Its latitude and longitude are needed.",
        DropReason.SchoolShut => "The school is shut on this day, or the times set for the stop leave nothing of its hours.",
        DropReason.VisitLongerThanWindow => "The visit is longer than the school's open time that is left for it.",
        DropReason.NoHoldingTank => "The tank is not ready, and the run has no holding tank. Add one, or wait with these eggs.",
        DropReason.TooManyForACar => "These are more eggs than any one car takes.",
        DropReason.OutOfReach => $"No driver can be there in the school's hours and stay within shift and {view.Run.LongestOut} minutes out of water, even with this stop alone.",
        DropReason.PinnedDriverIsOut => "It is kept for a driver who is not driving. Take the pin off, or let the driver drive.",
        DropReason.InAnotherCar => "Its eggs are in the car of a driver who dropped out on the way. Ring that driver: the eggs have to be met or brought back.",
        DropReason.CarsAreFull => "It could go alone, but all cars together have no room for it. One more driver or a larger car would help.",
        DropReason.NoTimeLeft => "It could go alone, but not beside the others in the time there is, or in the place it is pinned to. One more driver or a drop-only stop would help.",
    };

    public static string Word(this PackPlace place) => place switch
    {
        PackPlace.AtTheDepot => "at the depot",
        PackPlace.InACar => "in a car",
        PackPlace.AtTheTank => "handed over",
        PackPlace.AtTheHoldingTank => "at the holding tank",
        PackPlace.BroughtBack => "brought back",
    };

    public static string Word(this TickDeed deed) => deed switch
    {
        TickDeed.Loaded => "Loaded",
        TickDeed.HandedOver => "Handed over",
        TickDeed.ToHolding => "Left at the holding tank",
        TickDeed.BroughtBack => "Brought back",
        TickDeed.TakenBack => "Taken back",
    };

    public static string Word(this VisitKind visit) => visit == VisitKind.Talk ? "talk with the class" : "drop-only";

    public static string Eggs(int count) => $"{Number(count)} {(count == 1 ? "egg" : "eggs")}";

    public static string Stops(int count) => $"{count} {(count == 1 ? "stop" : "stops")}";

    private static string Rounds(int count) => $"{count} {(count == 1 ? "round" : "rounds")}";

    public static string Number(int count) => count.ToString("N0", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>Where the eggs are, in a sentence that adds up.</summary>
    public static string Whereabouts(RunView view)
    {
        var sums = Custody.Sums(view.Standing.Select(s => s.Pack));
        return $"Of {Eggs(sums.Values.Sum())}: {string.Join(", ", sums.Where(s => s.Value > 0).Select(s => $"{Number(s.Value)} {s.Key.Word()}"))}.";
    }

    public static string Answer(RunView view)
    {
        var stops = view.Standing.Count();
        var what = view switch
        {
            { IsPlanning: true } => "being planned",
            _ when stops == 0 => "no stop yet",
            { Run.Plan: PlanState.None } => $"{RunWords.Stops(stops)}, not planned yet",
            { Run.Plan: PlanState.Failed } => $"{RunWords.Stops(stops)}, and the planning failed",
            { Run.Plan: PlanState.Stale or PlanState.Planning } => $"{RunWords.Stops(stops)}; something changed since it was planned",
            _ => $"{RunWords.Stops(stops - view.LeftOut.Count)} in {Rounds(view.Drivers.Count(d => view.RoundOf(d).Count > 0))}" + (view.LeftOut.Count > 0 ? $", {view.LeftOut.Count} left out" : ""),
        };
        return $"{view.Run.Name}, {view.Run.On.ToString("d MMMM", System.Globalization.CultureInfo.InvariantCulture)}: {what}.";
    }
}
