namespace Tankside.Science.Losses;

/// <summary>The gamma and beta functions behind the distributions, to about 14 digits.</summary>
internal static class SpecialFunctions
{
    private const int MostSteps = 10_000;
    private const double Tiny = 1e-300;

    // Lanczos, g = 7, nine terms (Godfrey's coefficients, as printed in many texts; from memory, checked in tests on factorials).
    private static readonly double[] Lanczos =
    [
        0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
        12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
    ];

    public static double LogGamma(double x)
    {
        if (x < 0.5) return Math.Log(Math.PI / Math.Sin(Math.PI * x)) - LogGamma(1 - x);
        var shifted = x - 1;
        var sum = Lanczos[0];
        for (var i = 1; i < Lanczos.Length; i++) sum += Lanczos[i] / (shifted + i);
        var t = shifted + 7.5;
        return (0.5 * Math.Log(2 * Math.PI)) + ((shifted + 0.5) * Math.Log(t)) - t + Math.Log(sum);
    }

    /// <summary>Regularised upper incomplete gamma Q(a, x).</summary>
    public static double UpperGamma(double a, double x)
    {
        if (x <= 0) return 1;
        var front = Math.Exp((a * Math.Log(x)) - x - LogGamma(a));
        return x < a + 1 ? 1 - (front * LowerSeries(a, x)) : front * UpperFraction(a, x);
    }

    /// <summary>Regularised incomplete beta I_x(a, b).</summary>
    public static double Beta(double x, double a, double b)
    {
        if (x <= 0) return 0;
        if (x >= 1) return 1;
        var front = Math.Exp(LogGamma(a + b) - LogGamma(a) - LogGamma(b) + (a * Math.Log(x)) + (b * Math.Log(1 - x)));
        return x < (a + 1) / (a + b + 2) ? front * BetaFraction(x, a, b) / a : 1 - (front * BetaFraction(1 - x, b, a) / b);
    }

    private static double LowerSeries(double a, double x)
    {
        var term = 1 / a;
        var sum = term;
        for (var n = 1; n < MostSteps && Math.Abs(term) > Math.Abs(sum) * 1e-17; n++)
        {
            term *= x / (a + n);
            sum += term;
        }

        return sum;
    }

    // Continued fractions by the modified Lentz rule.
    private static double UpperFraction(double a, double x)
    {
        var b = x + 1 - a;
        var c = 1 / Tiny;
        var d = 1 / b;
        var h = d;
        for (var i = 1; i < MostSteps; i++)
        {
            var an = -i * (i - a);
            b += 2;
            d = 1 / NotZero((an * d) + b);
            c = NotZero(b + (an / c));
            var delta = d * c;
            h *= delta;
            if (Math.Abs(delta - 1) < 1e-16) break;
        }

        return h;
    }

    private static double BetaFraction(double x, double a, double b)
    {
        var c = 1.0;
        var d = 1 / NotZero(1 - ((a + b) * x / (a + 1)));
        var h = d;
        for (var m = 1; m < MostSteps; m++)
        {
            var even = m * (b - m) * x / ((a + (2 * m) - 1) * (a + (2 * m)));
            d = 1 / NotZero(1 + (even * d));
            c = NotZero(1 + (even / c));
            h *= d * c;
            var odd = -(a + m) * (a + b + m) * x / ((a + (2 * m)) * (a + (2 * m) + 1));
            d = 1 / NotZero(1 + (odd * d));
            c = NotZero(1 + (odd / c));
            var delta = d * c;
            h *= delta;
            if (Math.Abs(delta - 1) < 1e-16) break;
        }

        return h;
    }

    private static double NotZero(double x) => Math.Abs(x) < Tiny ? Tiny : x;
}
