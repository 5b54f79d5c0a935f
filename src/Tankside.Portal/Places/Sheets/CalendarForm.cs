namespace Tankside.Portal.Places.Sheets;

/// <summary>A calendar file on its way in.</summary>
public sealed class CalendarForm
{
    public Guid Id { get; set; }

    public IFormFile? File { get; set; }

    /// <summary>Empty for every school.</summary>
    public string? School { get; set; }
}
