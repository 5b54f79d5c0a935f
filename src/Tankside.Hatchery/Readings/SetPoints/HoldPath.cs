namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>The way of the dial to its first hold, with the sums of both stages at the start of each day.</summary>
internal sealed class HoldPath
{
    private readonly StageSums? hatch, swimUp;

    public HoldPath(DialPositions dial, TroubleDays days, StageSums? hatch, StageSums? swimUp, int hold)
    {
        (this.hatch, this.swimUp, Hold) = (hatch, swimUp, hold);
        Ramp = new Ramp(dial, days, 0, dial.Now, hold);
        (HatchSums, Hatch) = Along(hatch);
        (SwimUpSums, SwimUp) = Along(swimUp);
    }

    public int Hold { get; }

    /// <summary>From where it stands to the hold.</summary>
    public Ramp Ramp { get; }

    public StageDate Hatch { get; }

    public StageDate SwimUp { get; }

    private StageSum[] HatchSums { get; }

    private StageSum[] SwimUpSums { get; }

    /// <summary>Both dates when the dial goes on to a second hold from a day on.</summary>
    public (StageDate Hatch, StageDate SwimUp) Changing(int day, Ramp ramp)
    {
        var hatched = hatch is null || Hatch.Ahead <= day ? Hatch : Then(hatch, HatchSums[day], day, ramp);
        var swims = swimUp is null || SwimUp.Ahead <= day ? SwimUp : Then(swimUp, SwimUpSums[day], day, ramp);
        return (hatched, swims);
    }

    private static StageDate Then(StageSums stage, StageSum sum, int day, Ramp ramp)
    {
        for (; day <= ramp.Arrives; day++)
        {
            var next = stage.DayMore(sum, ramp.At(day));
            if (stage.IsReached(next))
            {
                return stage.Standing(day, sum, ramp.At(day));
            }

            sum = next;
        }

        return stage.Standing(day, sum, ramp.To);
    }

    /// <summary>The sums at the start of each day up to the one on which the stage comes, and when it does.</summary>
    private (StageSum[] Sums, StageDate Date) Along(StageSums? stage)
    {
        if (stage is null)
        {
            return ([], StageDate.Never);
        }

        var sums = new StageSum[TroubleDays.Horizon + 1];
        for (var day = 0; day < TroubleDays.Horizon; day++)
        {
            sums[day + 1] = stage.DayMore(sums[day], Ramp.At(day));
            if (stage.IsReached(sums[day + 1]))
            {
                return (sums, stage.Standing(day, sums[day], Ramp.At(day)));
            }
        }

        return (sums, StageDate.Never);
    }
}

/// <summary>The dial's way from one position to another, a step on each day on which somebody can turn it.</summary>
internal sealed class Ramp
{
    private readonly int start, from;
    private readonly int[] at;

    public Ramp(DialPositions dial, TroubleDays days, int start, int from, int to)
    {
        (this.start, this.from, To) = (start, from, to);
        var way = new List<int>(16);
        var position = from;
        for (var day = start; position != to; day++)
        {
            if (day >= TroubleDays.Horizon)
            {
                Arrives = int.MaxValue;
                break;
            }

            var next = days.IsTurn(day) ? dial.Toward(position, to) : position;
            if (next == position && days.IsTurn(day))
            {
                Arrives = int.MaxValue;
                break;
            }

            Turns += next == position ? 0 : 1;
            position = next;
            way.Add(position);
        }

        at = [.. way];
        if (Arrives != int.MaxValue)
        {
            Arrives = start + at.Length - 1;
        }
    }

    public int To { get; }

    /// <summary>The day of the last turn; the day before the start when there is none to make; the largest number when it never comes there.</summary>
    public int Arrives { get; }

    public bool EverArrives => Arrives != int.MaxValue;

    public int Turns { get; }

    public int At(int day) => day < start ? from : day - start < at.Length ? at[day - start] : To;
}
