using System.Text.Json;
using Tankside.Science.Losses;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Science.Tests.Water;

/// <summary>Every printed row for oxygen, pressure, ammonia, chlorine and the Wilson interval.</summary>
public class WaterCheckRows
{
    private const string File = "water_checks.csv";

    public static TheoryData<int> All => Rows.Indices(File, _ => true);

    [Theory]
    [MemberData(nameof(All))]
    public void A_printed_value_is_met_within_its_tolerance(int index)
    {
        var row = Rows.Of(File)[index];
        var arguments = Arguments(row["arguments"]);
        var what = row["quantity"] + row["arguments"] + " " + row["source"];
        Rows.Near(row.Number("expected"), Answer(row["quantity"], arguments), row.Number("tolerance"), what);
    }

    [Fact]
    public void There_are_62_printed_rows() => Assert.Equal(62, All.Count);

    private static double Answer(string quantity, double[] a) => quantity switch
    {
        "do_sat_1atm" => Oxygen.SaturationAtOneAtmosphere(new Celsius(a[0])).Value,
        "do_sat_mmHg" => Oxygen.Saturation(new Celsius(a[0]), Pressure.FromMillimetresOfMercury(a[1])).Value,
        "pressure_mmHg_ft" => Pressure.AtElevation(a[0] * 0.3048).Value * 760 / 101.325,
        "pka_nh4" => Ammonia.PKa(new Celsius(a[0])),
        "f_nh3" => Ammonia.UnionizedFraction(new Celsius(a[1]), a[0]),
        "epa2013_ccc" => Ammonia.LongTermCriterionTotalN(a[0], new Celsius(a[1])).Value,
        "epa_4day" => 2.5 * Ammonia.LongTermCriterionTotalN(a[0], new Celsius(a[1])).Value,
        "thio_per_cl2" => Thiosulfate(a),
        "chloramine_n_per_cl2" => Chlorine.AmmoniaNPerChlorine,
        "lc50_monochloramine" => Chlorine.MonochloramineHalfLethal(a[0]),
        "wilson_lo" => Wilson.Interval((long)a[0], (long)a[1]).Low,
        "wilson_hi" => Wilson.Interval((long)a[0], (long)a[1]).High,
        _ => throw new InvalidOperationException(quantity),
    };

    // The first number is moles of thiosulfate per mole of chlorine; a false after it means the anhydrous salt.
    private static double Thiosulfate(double[] a) => a switch
    {
        [2.0] => Chlorine.ThiosulfatePentahydratePerChlorine,
        [2.0, 0] => Chlorine.ThiosulfateAnhydrousPerChlorine,
        [0.25] => Chlorine.ThiosulfatePentahydrateMinimum,
        _ => throw new InvalidOperationException(),
    };

    private static double[] Arguments(string json)
    {
        using var document = JsonDocument.Parse(json);
        return [.. document.RootElement.EnumerateArray().Select(e => e.ValueKind == JsonValueKind.False ? 0 : e.GetDouble())];
    }
}
