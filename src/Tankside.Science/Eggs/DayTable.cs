namespace Tankside.Science.Eggs;

/// <summary>
/// A table of temperatures and days, read between its rows with ln(days) linear in the temperature, and exact at its rows.
/// Rows are sorted; the caller keeps to the table's ends.
/// </summary>
internal sealed class DayTable
{
    private readonly (double T, double Days)[] _rows;

    public DayTable(IEnumerable<(double T, double Days)> rows)
    {
        _rows = [.. rows.OrderBy(row => row.T)];
        if (_rows.Length < 2) throw new ArgumentException("A table needs at least two temperatures.", nameof(rows));
        if (_rows.Any(row => !double.IsFinite(row.T) || !double.IsFinite(row.Days) || row.Days <= 0))
            throw new ArgumentException("Temperatures must be finite and days positive.", nameof(rows));
        for (var i = 1; i < _rows.Length; i++)
        {
            if (_rows[i].T <= _rows[i - 1].T)
                throw new ArgumentException("A temperature stands twice in the table.", nameof(rows));
            if (_rows[i].Days >= _rows[i - 1].Days)
                throw new ArgumentException("Warmer water must take fewer days.", nameof(rows));
        }
    }

    public double From => _rows[0].T;

    public double To => _rows[^1].T;

    public double At(double t)
    {
        var upper = 1;
        while (upper < _rows.Length - 1 && t > _rows[upper].T) upper++;
        var (t0, d0) = _rows[upper - 1];
        var (t1, d1) = _rows[upper];

        // Exact at a cell: the logarithm's round trip would cost the last digit.
        if (t == t0) return d0;
        if (t == t1) return d1;
        return Math.Exp(Math.Log(d0) + (Math.Log(d1 / d0) * (t - t0) / (t1 - t0)));
    }
}
