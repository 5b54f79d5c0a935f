using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

public sealed class NewKitForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one piece.</summary>
    public Guid Id { get; set; }

    public string? Kind { get; set; }

    public string? Serial { get; set; }

    public string? Make { get; set; }

    public string? Batch { get; set; }

    public string? Owner { get; set; }

    public string? MostLitres { get; set; }

    public string? BoughtOn { get; set; }

    public string? WarrantyUntil { get; set; }

    public string? Depot { get; set; }

    public string? Note { get; set; }

    /// <summary>How many acts its history had when somebody opened it to correct it.</summary>
    public int Acts { get; set; }

    public static NewKitForm Of(KitItem item) => new()
    {
        Id = Guid.NewGuid(),
        Serial = item.Serial,
        Make = item.Make,
        Batch = item.Batch,
        Owner = item.Owner,
        MostLitres = KitWords.Plain(item.MostLitres),
        BoughtOn = item.BoughtOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        WarrantyUntil = item.WarrantyUntil?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        Acts = item.Acts,
    };
}

/// <summary>Enters a new piece of kit in the register, at a depot or with its place not known yet.</summary>
public sealed class RegisterKit(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    private const int LongestSerial = 40;

    /// <summary>Pages of their own under the same address; a serial of that name could not be opened.</summary>
    private static readonly string[] Taken = ["NEW", "DEPOTS", "STOCK", "FAILURES", "SPARES", "LOANS", "ICE"];

    public Task<Notice?> HandleAsync(CurrentUser user, NewKitForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, NewKitForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.KitItems.AsNoTracking().SingleOrDefaultAsync(k => k.Id == form.Id && k.ProgrammeId == user.ProgrammeId, cancel) is { } before)
        {
            return new Notice(true, say.Of("{0} was entered already; it is in the register once.", before.Serial));
        }

        var typed = new TypedFields(refuse, say);
        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        var item = Read(typed, form, user);
        var spot = string.IsNullOrEmpty(form.Depot) ? KitSpot.Unknown : ActOnKit.DepotOf(typed, nameof(form.Depot), form.Depot, names);
        var note = typed.Text(nameof(form.Note), form.Note);
        await RefuseKnownAsync(db, typed, item, item.Id, names, cancel);
        if (!typed.AllGood)
        {
            return null;
        }

        db.KitItems.Add(item);
        db.KitActs.Add(KitRules.Write(item, KitActKind.Registered, spot, form.Id, user.PersonId, Instants.ToMillisecond(time.GetUtcNow().UtcDateTime), note));
        await db.SaveChangesAsync(cancel);
        return new Notice(true, say.Of("Entered: {0} {1}, {2}.", say[KitWords.Of(item.Kind)], item.Serial, names.Of(item.Spot, say)));
    }

    /// <summary>A serial stands in the register once, however its letters are written.</summary>
    internal static async Task RefuseKnownAsync(HatcheryDb db, TypedFields typed, KitItem item, Guid itself, KitNames names, CancellationToken cancel)
    {
        var kit = await db.KitItems.AsNoTracking().Where(k => k.ProgrammeId == item.ProgrammeId && k.Id != itself).ToListAsync(cancel);
        if (kit.Find(k => string.Equals(k.Serial, item.Serial, StringComparison.OrdinalIgnoreCase)) is { } same)
        {
            typed.Refuse(nameof(NewKitForm.Serial), typed.Say.Of(
                "{0} is in the register already: {1}, {2}, {3}. A serial is in one place; act on that piece, or look at the number again.",
                same.Serial, typed.Say[KitWords.Of(same.Kind)], same.Make, names.Of(same.Spot, typed.Say)));
        }
    }

    internal static KitItem Read(TypedFields typed, NewKitForm form, CurrentUser user) => new()
    {
        Id = form.Id == Guid.Empty ? Guid.NewGuid() : form.Id,
        ProgrammeId = user.ProgrammeId,
        Kind = typed.Choice<KitKind>(nameof(form.Kind), form.Kind, "Choose what it is."),
        Serial = SerialOf(typed, form),
        Make = typed.Name(nameof(form.Make), form.Make, "Type the make and the model, as on the plate."),
        Batch = typed.Text(nameof(form.Batch), form.Batch),
        Owner = typed.Text(nameof(form.Owner), form.Owner),
        MostLitres = typed.Number(nameof(form.MostLitres), form.MostLitres, 1, 5000, "208"),
        BoughtOn = OptionalDay(typed, nameof(form.BoughtOn), form.BoughtOn),
        WarrantyUntil = OptionalDay(typed, nameof(form.WarrantyUntil), form.WarrantyUntil),
    };

    /// <summary>Capitals throughout, because a label is read aloud.</summary>
    private static string SerialOf(TypedFields typed, NewKitForm form)
    {
        var serial = (form.Serial ?? "").Trim().ToUpperInvariant();
        if (WhyNoSerial(serial, typed.Say) is { } why)
        {
            typed.Refuse(nameof(form.Serial), why);
        }

        return serial;
    }

    /// <summary>Null for a serial that may stand in the register: no sign that an address could not hold.</summary>
    internal static string? WhyNoSerial(string serial, Say? reader = null) =>
        serial.Length is 0 or > LongestSerial || serial.Any(c => !char.IsAsciiLetterOrDigit(c) && c is not ('-' or '.' or '_' or ' ')) || serial.StartsWith('.') || serial.EndsWith('.')
            ? (reader ?? Say.InEnglish).Of("Type the serial as on the plate, or the number of your own label: 1 to {0} letters, digits, spaces, dashes, dots. Leave other signs out.", LongestSerial)
            : Taken.Contains(serial) ? "That word is the name of a page here. Add a number to it."
            : null;

    private static DateOnly? OptionalDay(TypedFields typed, string field, string? day) =>
        string.IsNullOrWhiteSpace(day) ? null : typed.Day(field, day);
}
