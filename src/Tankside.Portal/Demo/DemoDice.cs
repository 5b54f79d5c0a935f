using Tankside.Hatchery.Places;

namespace Tankside.Portal.Demo;

/// <summary>Chance that comes out the same for the same day. Not for secrets of anything but the demo.</summary>
public sealed class DemoDice(int seed)
{
    private readonly Random random = new(seed);

    public Guid Id()
    {
        Span<byte> bytes = stackalloc byte[16];
        random.NextBytes(bytes);
        bytes[7] = (byte)((bytes[7] & 0x0f) | 0x40);
        bytes[8] = (byte)((bytes[8] & 0x3f) | 0x80);
        return new Guid(bytes);
    }

    public bool Chance(double probability) => random.NextDouble() < probability;

    public int Between(int least, int most) => random.Next(least, most + 1);

    /// <summary>Normal, by Box and Muller.</summary>
    public double Around(double mean, double sd) =>
        mean + (sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()));

    /// <summary>Poisson, by Knuth's product; for small means.</summary>
    public int Count(double mean)
    {
        var limit = Math.Exp(-mean);
        var product = random.NextDouble();
        var count = 0;
        while (product > limit)
        {
            product *= random.NextDouble();
            count++;
        }

        return count;
    }

    public string RoomCode() => RoomCodes.Make(random.Next);
}
