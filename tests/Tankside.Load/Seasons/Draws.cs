namespace Tankside.Load.Seasons;

/// <summary>Draws from the distributions that a season is made of.</summary>
public static class Draws
{
    extension(Random random)
    {
        public bool Chance(double probability) => random.NextDouble() < probability;

        /// <summary>By counting waits: right for the few deaths of a day.</summary>
        public int Poisson(double mean)
        {
            var (count, left) = (0, mean - random.Wait());
            while (left > 0)
            {
                count++;
                left -= random.Wait();
            }

            return count;
        }

        /// <summary>Mean 1 and a spread by its shape (Marsaglia and Tsang 2000, from memory; a test holds its mean and spread).</summary>
        public double Gamma(double shape)
        {
            if (shape < 1)
            {
                return (shape + 1) / shape * random.Gamma(shape + 1) * Math.Pow(random.NextDouble(), 1 / shape);
            }

            var d = shape - (1.0 / 3);
            while (true)
            {
                var x = random.Normal();
                var v = Math.Pow(1 + (x / Math.Sqrt(9 * d)), 3);
                if (v > 0 && Math.Log(1 - random.NextDouble()) < (x * x / 2) + d - (d * v) + (d * Math.Log(v)))
                {
                    return d * v / shape;
                }
            }
        }

        public double Normal() =>
            Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

        private double Wait() => -Math.Log(1 - random.NextDouble());
    }
}
