using System.Globalization;
using Tankside.Hatchery.Releases;

namespace Tankside.Portal.Releases.Permits;

public sealed class PermitForm
{
    public Guid Id { get; set; }

    /// <summary>As it stood when the page was shown, so that nobody overwrites another's change unseen.</summary>
    public int Version { get; set; }

    public string? Number { get; set; }

    public string? Holder { get; set; }

    /// <summary>The person of the programme who sends its reports; empty for the leads.</summary>
    public string? Responsible { get; set; }

    public string? Species { get; set; }

    public string? Water { get; set; }

    public string? Fish { get; set; }

    public string? From { get; set; }

    public string? To { get; set; }

    public string? HoldDays { get; set; }

    public string? Conditions { get; set; }

    public string? Document { get; set; }

    /// <summary>Sets the fields of a form that is bound already.</summary>
    public void Fill(Permit permit)
    {
        (Id, Version, Number, Holder, Responsible) = (permit.Id, permit.Version, permit.Number, permit.Holder, permit.ResponsibleId?.ToString());
        (Species, Water, Conditions, Document) = (permit.Species.ToString(), permit.Water, permit.Conditions, permit.Document);
        (Fish, HoldDays) = (permit.Fish.ToString(CultureInfo.InvariantCulture), permit.HoldDays?.ToString(CultureInfo.InvariantCulture));
        (From, To) = (Iso(permit.From), Iso(permit.To));
    }

    private static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
