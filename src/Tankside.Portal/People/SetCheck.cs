using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.People;

public sealed class CheckForm
{
    public string? Kind { get; set; }

    public string? Until { get; set; }
}

/// <summary>
/// Keeps which background check a member has shown and until when it holds; both empty for none. Nothing else is kept of it: no number, no
/// paper, no finding.
/// </summary>
public sealed class SetCheck(IDbContextFactory<HatcheryDb> databases)
{
    public const int LongestKind = 60;

    /// <summary>How long before its last day a check is called to mind.</summary>
    public const int WarnDays = 30;

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public async Task<Notice?> HandleAsync(CurrentUser lead, Guid membershipId, CheckForm form, Action<string> refuse, CancellationToken cancel)
    {
        var kind = string.IsNullOrWhiteSpace(form.Kind) ? null : form.Kind.Trim();
        if (kind is null != string.IsNullOrWhiteSpace(form.Until) || kind is { Length: > LongestKind })
        {
            refuse($"Give both the kind, {LongestKind} characters at most, and the last day; or leave both empty for none. Nothing was changed.");
            return null;
        }

        DateOnly? until = null;
        if (kind is not null)
        {
            if (!DateOnly.TryParseExact(form.Until!.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) || day.Year is <= 2000 or >= 2100)
            {
                refuse("Give the last day on which the check holds, such as 2027-06-30. Nothing was changed.");
                return null;
            }

            until = day;
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Memberships.SingleOrDefaultAsync(m => m.Id == membershipId && m.ProgrammeId == lead.ProgrammeId, cancel) is not { } membership)
        {
            return new Notice(false, "This person is not in the programme any more.");
        }

        (membership.CheckKind, membership.CheckedUntil) = (kind, until);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, kind is null ? "No background check is kept." : "The background check is kept: its kind and its last day, nothing else.");
    }

    /// <summary>Why the member stands in the list of checks; null while theirs holds.</summary>
    public static string? Wants(Member member, DateOnly today) => member.CheckedUntil switch
    {
        null => "none",
        { } until when until < today => $"ended on {until.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)}",
        { } until when until <= today.AddDays(WarnDays) => $"ends on {until.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)}",
        _ => null,
    };
}
