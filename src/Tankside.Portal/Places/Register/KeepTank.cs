using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Sheets;
using Tankside.Portal.Shell;
using Tankside.Science.Heat;
using Tankside.Storage;

namespace Tankside.Portal.Places.Register;

public sealed class TankForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one tank.</summary>
    public Guid Id { get; set; }

    /// <summary>The tank as the person saw it.</summary>
    public int Version { get; set; }

    public string? Code { get; set; }

    public string? Litres { get; set; }

    public string? SetPoint { get; set; }

    public string? Jacket { get; set; }

    public string? Scale { get; set; }

    public string? Room { get; set; }

    public string? ChillerBatch { get; set; }

    public string? TestKitBatch { get; set; }

    internal IReadOnlyDictionary<string, TypedCell> Cells => new Dictionary<string, TypedCell>
    {
        ["litres"] = new(nameof(Litres), Litres, true),
        ["set-point"] = new(nameof(SetPoint), SetPoint, true),
        ["jacket"] = new(nameof(Jacket), Jacket, true),
        ["scale"] = new(nameof(Scale), Scale, true),
        ["room-c"] = new(nameof(Room), Room, true),
        ["chiller-batch"] = new(nameof(ChillerBatch), ChillerBatch),
        ["test-kit"] = new(nameof(TestKitBatch), TestKitBatch),
    };

    public static TankForm Of(Tank tank, TemperatureUnit unit) => new()
    {
        Id = tank.Id,
        Version = tank.Version,
        Code = tank.Code,
        Litres = FieldReads.Of(tank.Litres),
        SetPoint = RoomFields.Words(tank.SetPointC, unit),
        Jacket = tank.Jacket == Science.Heat.Jacket.Foam ? "foam" : "none",
        Scale = tank.UsualUnit == TemperatureUnit.C ? "°C" : "°F",
        Room = RoomFields.Words(tank.RoomC, unit),
        ChillerBatch = tank.ChillerBatch,
        TestKitBatch = tank.TestKitBatch,
    };
}

/// <summary>Adds a tank to a room by hand, with its room code, or changes what is known of it. Its code never changes: it stands on the label.</summary>
public sealed class KeepTank(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public Task<Notice?> AddAsync(CurrentUser user, Guid schoolId, Guid roomId, TankForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAddAsync(user, schoolId, roomId, form, refuse, cancel), refuse);

    public Task<Notice?> ChangeAsync(CurrentUser user, string code, TankForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryChangeAsync(user, code, form, refuse, cancel), refuse);

    /// <summary>A form for a new tank: the next code after the newest, and what most tanks of the programme are like.</summary>
    public async Task<TankForm> NextAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var unit = await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.ScreenUnit).SingleAsync(cancel);
        var tanks = await db.Tanks.AsNoTracking().Where(t => t.ProgrammeId == user.ProgrammeId).ToListAsync(cancel);
        var like = tanks.GroupBy(t => (t.Litres, t.SetPointC, t.Jacket, t.UsualUnit, t.RoomC)).MaxBy(g => g.Count())?.First()
            ?? new Tank { Code = "", Litres = 208, SetPointC = 10.5, Jacket = Jacket.None, UsualUnit = unit };
        var form = TankForm.Of(like, unit);
        var next = NextCode([.. await db.Tanks.Select(t => t.Code).ToListAsync(cancel)], tanks.Select(t => t.Code).Max(StringComparer.Ordinal));
        (form.Id, form.Version, form.Code, form.ChillerBatch, form.TestKitBatch) = (Guid.NewGuid(), 0, next, null, null);
        return form;
    }

    /// <summary>"A012" after "A011"; codes of other programmes are passed over without a word.</summary>
    public static string NextCode(HashSet<string> taken, string? newest)
    {
        var digits = newest?.Reverse().TakeWhile(char.IsAsciiDigit).Count() is > 0 and < 9 and var count ? count : 3;
        var stem = newest is null || !char.IsAsciiDigit(newest[^1]) ? "A" : newest[..^digits];
        for (var number = newest is not null && char.IsAsciiDigit(newest[^1]) ? int.Parse(newest[^digits..], System.Globalization.CultureInfo.InvariantCulture) + 1 : 1; ; number++)
        {
            var code = stem + number.ToString(new string('0', digits), System.Globalization.CultureInfo.InvariantCulture);
            if (!taken.Contains(code))
            {
                return code;
            }
        }
    }

    private async Task<Notice?> TryAddAsync(CurrentUser user, Guid schoolId, Guid roomId, TankForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Tanks.AnyAsync(t => t.Id == form.Id && t.ProgrammeId == user.ProgrammeId, cancel))
        {
            return new Notice(true, "This tank was added already.");
        }

        var typed = new TypedFields(refuse);
        if (!await db.Classrooms.AnyAsync(r => r.Id == roomId && r.SchoolId == schoolId && db.Schools.Any(s => s.Id == schoolId && s.ProgrammeId == user.ProgrammeId), cancel))
        {
            typed.Refuse("", "This room was taken out meanwhile. Nothing was saved.");
        }

        var code = form.Code?.Trim().ToUpperInvariant() ?? "";
        var tank = new Tank { Id = form.Id, ProgrammeId = user.ProgrammeId, ClassroomId = roomId, Code = code };
        if (!RoomSheet.IsCode(code))
        {
            typed.Refuse(nameof(form.Code), "Expected: at most 12 letters, digits and dashes, such as A007.");
        }
        else if (await db.Tanks.AnyAsync(t => t.Code == code, cancel))
        {
            typed.Refuse(nameof(form.Code), $"The code {code} is taken. Codes are unique in the whole installation; give this tank another one.");
        }

        new TypedFieldsOf<Tank>(RoomFields.OfTank, form.Cells).ReadInto(tank, typed);
        if (!typed.AllGood)
        {
            return null;
        }

        db.AddRange(tank, RoomSheet.NewCode(tank.Id, Instants.ToMillisecond(time.GetUtcNow().UtcDateTime)));
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Added: tank {code}, with a room code. Its label can be printed.");
    }

    private async Task<Notice?> TryChangeAsync(CurrentUser user, string code, TankForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var typed = new TypedFields(refuse);
        if (await db.Tanks.SingleOrDefaultAsync(t => t.Code == code && t.ProgrammeId == user.ProgrammeId, cancel) is not { } tank)
        {
            typed.Refuse("", "This tank was taken out meanwhile. Nothing was saved.");
            return null;
        }

        var mine = new Tank { Code = code };
        new TypedFieldsOf<Tank>(RoomFields.OfTank, form.Cells).ReadInto(mine, typed);
        if (!typed.AllGood)
        {
            return null;
        }

        if (tank.Version != form.Version)
        {
            form.Version = tank.Version;
            var theirs = TypedCells.Differences(RoomFields.OfTank, tank, mine);
            typed.Refuse("", $"Somebody changed this tank meanwhile{(theirs.Length == 0 ? "" : $": it is now {theirs}")}. What you typed is kept below; send it again if it should replace that.");
            return null;
        }

        foreach (var field in RoomFields.OfTank.Where(f => f.Get(tank) != f.Get(mine)))
        {
            field.Set(tank, field.Get(mine));
        }

        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Saved: tank {code}, {FieldReads.Of(tank.Litres)} L, set to {RoomFields.Words(tank.SetPointC, await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.ScreenUnit).SingleAsync(cancel))}.");
    }
}
