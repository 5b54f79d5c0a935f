namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>The way of the dial to its first hold, with the sums of both stages at the start of each day.</summary>
internal sealed class HoldPath
{
    private readonly DialPositions dial;
    private readonly int[] turns;
    private readonly StageSums? hatch, swimUp;
    private readonly StageSum[] hatchSums, swimUpSums;

    public HoldPath(DialPositions dial, int[] turns, StageSums? hatch, StageSums? swimUp, int hold)
    {
        (this.dial, this.turns, this.hatch, this.swimUp, Hold) = (dial, turns, hatch, swimUp, hold);
        Turns = dial.TurnsBetween(dial.Now, hold) is { } needed && needed <= turns.Length ? needed : -1;
        (hatchSums, Hatch) = Along(hatch);
        (swimUpSums, SwimUp) = Along(swimUp);
    }

    public int Hold { get; }

    /// <summary>Days of turning until the hold; negative when the dial never gets there.</summary>
    public int Turns { get; }

    public StageDate Hatch { get; }

    public StageDate SwimUp { get; }

    /// <summary>Both dates when the dial goes on to a second hold from one of the days of turning on.</summary>
    public (StageDate Hatch, StageDate SwimUp) Changing(int turn, int to)
    {
        var day = turns[turn];
        var hatched = hatch is null || Hatch.Ahead <= day ? Hatch : Then(hatch, hatchSums[day], turn, to);
        var swims = swimUp is null || SwimUp.Ahead <= day ? SwimUp : Then(swimUp, swimUpSums[day], turn, to);
        return (hatched, swims);
    }

    private StageDate Then(StageSums stage, StageSum sum, int turn, int to)
    {
        var position = Hold;
        for (; ; turn++)
        {
            position = dial.Toward(position, to);
            if (position == to)
            {
                return stage.Standing(turns[turn], sum, to);
            }

            var next = stage.DaysMore(sum, position, turns[turn + 1] - turns[turn]);
            if (stage.IsReached(next))
            {
                return stage.Standing(turns[turn], sum, position);
            }

            sum = next;
        }
    }

    /// <summary>The sums at the start of each day up to the one on which the stage comes, and when it does.</summary>
    private (StageSum[] Sums, StageDate Date) Along(StageSums? stage)
    {
        if (stage is null || Turns < 0)
        {
            return ([], StageDate.Never);
        }

        var sums = new StageSum[TroubleDays.Horizon + 1];
        var (position, turn) = (dial.Now, 0);
        for (var day = 0; day < TroubleDays.Horizon; day++)
        {
            if (turn < Turns && turns[turn] == day)
            {
                position = dial.Toward(position, Hold);
                turn++;
            }

            sums[day + 1] = stage.DaysMore(sums[day], position, 1);
            if (stage.IsReached(sums[day + 1]))
            {
                return (sums, stage.Standing(day, sums[day], position));
            }
        }

        return (sums, StageDate.Never);
    }
}
