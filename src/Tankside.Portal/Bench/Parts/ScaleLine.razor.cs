using Microsoft.AspNetCore.Components;
using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Bench.Parts;

public partial class ScaleLine
{
    private const double UpperRow = 16, LowerRow = 36, Room = 0.12;

    private ValueAxis axis = new(0, 1, 1, 0, 1);

    /// <summary>The text alternative: one sentence that says what the picture shows.</summary>
    [Parameter, EditorRequired]
    public string Label { get; set; } = "";

    /// <summary>The answer.</summary>
    [Parameter, EditorRequired]
    public double At { get; set; }

    /// <summary>The words for the answer's dot in the key and the table.</summary>
    [Parameter, EditorRequired]
    public string AtText { get; set; } = "";

    [Parameter, EditorRequired]
    public string Unit { get; set; } = "";

    /// <summary>Where the scale must reach at least, so that the marks have room.</summary>
    [Parameter, EditorRequired]
    public double To { get; set; }

    /// <summary>Near end of the interval.</summary>
    [Parameter]
    public double? Low { get; set; }

    /// <summary>Far end of the interval.</summary>
    [Parameter]
    public double? High { get; set; }

    [Parameter]
    public string BandText { get; set; } = "";

    [Parameter]
    public IReadOnlyList<ScaleMark> Marks { get; set; } = [];

    private double Line => Marks.Count > 0 ? 62 : 20;

    protected override void OnParametersSet() => axis = ValueAxis.For([0, To, At, High ?? 0], 0, 1);

    private double Share(double value) => Math.Clamp((value - axis.Low) / (axis.High - axis.Low), 0, 1);

    private string TickText(double tick) => Figures.Brief(tick) + (Unit == "%" ? "%" : "");

    private string X(double value) => Svg.Percent(Share(value));

    /// <summary>Marks with the row of their word; a word that would run into another is left to the table.</summary>
    private IEnumerable<(ScaleMark Mark, double? Row)> Placed()
    {
        double upper = -1, lower = -1;
        foreach (var mark in Marks)
        {
            var share = Share(mark.Value);
            if (share - lower >= Room)
            {
                lower = share;
                yield return (mark, LowerRow);
            }
            else if (share - upper >= Room)
            {
                upper = share;
                yield return (mark, UpperRow);
            }
            else
            {
                yield return (mark, null);
            }
        }
    }

    private List<KeyItem> Key()
    {
        var key = new List<KeyItem> { new(AtText, "in-river", """<circle cx="13" cy="7" r="5" fill="currentColor"/>""") };
        if (Low is not null) key.Add(KeyItem.Ground(BandText));
        return key;
    }
}
