using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Releases;

/// <summary>A tank's way to the stream's temperature, asked in the address.</summary>
public class TemperingTests
{
    [Theory, BothDatabases]
    public async Task The_page_tells_each_turn_what_is_left_for_the_bucket_and_what_it_cannot_read(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        // The tank stands at 50.9 °F and today is Wednesday the 3rd: two school days up to Friday, 0.1 °F short of two turns from 53 °F.
        var near = await teacher.ReadAsync("/releases/tempering?tank=A001&stream=53&day=2027-02-05");
        Assert.Contains("Begin on Wednesday 3 February: 2 turns of the dial of A001.", near, StringComparison.Ordinal);
        Assert.Contains("Thursday 4 February", near, StringComparison.Ordinal);
        Assert.Contains("Bucket and stream should be alike", near, StringComparison.Ordinal);

        var far = await teacher.ReadAsync("/releases/tempering?tank=A001&stream=59&day=2027-02-04");
        Assert.Contains("About 7.1 °F (3.9 °C) are left", far, StringComparison.Ordinal);
        Assert.Contains("more than the 5 °F", far, StringComparison.Ordinal);

        await host.SeedAsync(db => db.AddRange(Own(world.One, TemperingSettings.Apart.Key, 4), Own(world.One, TemperingSettings.Warmest.Key, 10.5)));
        var own = await teacher.ReadAsync("/releases/tempering?tank=A001&stream=57&day=2027-02-05");
        Assert.Contains("About 6.1 °F (3.4 °C) are left", own, StringComparison.Ordinal);
        Assert.DoesNotContain("are more than the", own, StringComparison.Ordinal);

        Assert.Contains("Type the stream’s temperature", await teacher.ReadAsync("/releases/tempering?tank=A001&stream=wet&day=2027-02-05"), StringComparison.Ordinal);
        Assert.Contains("today or later", await teacher.ReadAsync("/releases/tempering?tank=A001&stream=50&day=2027-01-05"), StringComparison.Ordinal);
        Assert.Contains("Choose the tank.", await teacher.ReadAsync("/releases/tempering?tank=A002&stream=50&day=2027-02-05"), StringComparison.Ordinal);
    }

    private static ProgrammeSetting Own(TestProgramme of, string key, double value) => new() { ProgrammeId = of.Programme.Id, Key = key, Value = value };
}
