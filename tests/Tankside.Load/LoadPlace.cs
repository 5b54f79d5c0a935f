using Tankside.Hatchery.Places;
using Tankside.Portal.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>
/// A portal with many tanks, and a twin of its database for the bare side: the same rows, the same tables with all their indexes.
/// </summary>
public sealed class LoadPlace : IAsyncDisposable
{
    /// <summary>How much may be sent a minute is not what is measured.</summary>
    public static IReadOnlyDictionary<string, string> Unlimited { get; } = new Dictionary<string, string>
    {
        ["Tankside:ApiCallsAMinute"] = "1000000",
        ["Tankside:Api:RequestsPerMinute"] = "1000000",
        ["Tankside:MemberRequestsPerMinute"] = "1000000",
        ["Tankside:FormsPerMinute"] = "1000000",
        ["Tankside:LivingPagesPerMember"] = "1000000",
    };

    private readonly LoadTanks rows;

    private LoadPlace(PortalHost portal, TestDatabase twin, int tanks)
    {
        Portal = portal;
        Twin = twin;
        rows = new LoadTanks(tanks);
    }

    public PortalHost Portal { get; }

    public Guid ProgrammeId => rows.Programme.Programme.Id;

    /// <summary>The people and places around the tanks.</summary>
    public TestProgramme Programme => rows.Programme;

    public TestDatabase Twin { get; }

    public IReadOnlyList<Tank> Tanks => rows.Tanks;

    /// <summary>The label of each tank, in step with <see cref="Tanks"/>.</summary>
    public IReadOnlyList<RoomCode> Codes => rows.Codes;

    /// <summary>A logger's key for every tank.</summary>
    public string Key => rows.Key;

    /// <param name="environment">In Production a cookie goes over TLS only, and nobody signs in over loopback.</param>
    public static async Task<LoadPlace> CreateAsync(DatabaseKind kind, int tanks, bool judgeWorks = false, string environment = "Production")
    {
        var place = new LoadPlace(await PortalHost.CreateAsync(kind, new PortalHostSettings { Environment = environment, JudgeWorks = judgeWorks, Keys = Unlimited }), await TestDatabase.CreateAsync(kind), tanks);
        await place.Portal.SeedAsync(place.rows.AddTo);
        await using var db = place.Twin.CreateDbContext();
        place.rows.AddTo(db);
        await db.SaveChangesAsync();
        return place;
    }

    public async ValueTask DisposeAsync()
    {
        await Portal.DisposeAsync();
        await Twin.DisposeAsync();
    }
}
