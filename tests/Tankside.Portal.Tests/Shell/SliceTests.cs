using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Tests.Shell;

/// <summary>Long lists go page by page.</summary>
public class SliceTests
{
    [Theory]
    [InlineData(0, null, 1, 1, 0)]
    [InlineData(100, "2", 1, 1, 100)]
    [InlineData(101, null, 1, 2, 100)]
    [InlineData(101, "2", 2, 2, 1)]
    [InlineData(250, "99", 3, 3, 50)]
    [InlineData(250, "0", 1, 3, 100)]
    [InlineData(250, "-3", 1, 3, 100)]
    [InlineData(250, "two", 1, 3, 100)]
    [InlineData(250, "99999999999999999999", 1, 3, 100)]
    [InlineData(250, "all", 1, 3, 250)]
    public void A_page_holds_its_hundred_rows_and_whatever_is_asked_for_is_a_page_that_there_is(int all, string? asked, int number, int pages, int rows)
    {
        var slice = Slice.Of([.. Enumerable.Range(0, all)], asked);

        Assert.Equal((number, pages, rows), (slice.Number, slice.Pages, slice.Rows.Count));
        Assert.Equal(Enumerable.Range((number - 1) * Slice.Size, rows), slice.Rows);
        Assert.Equal(asked == "all", slice.Whole);
    }

    [Fact]
    public async Task Every_person_stands_on_one_of_the_pages_and_all_of_them_on_the_whole_one()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var ids = new List<Guid>();
        await host.SeedAsync(db =>
        {
            foreach (var number in Enumerable.Range(1, 120))
            {
                var person = new Person { Id = Guid.NewGuid(), Name = $"Helper {number:000}", UserName = $"h{number}@example.test", NormalizedUserName = $"H{number}@EXAMPLE.TEST", Email = $"h{number}@example.test", NormalizedEmail = $"H{number}@EXAMPLE.TEST" };
                ids.Add(Guid.NewGuid());
                db.AddRange(person, new Membership { Id = ids[^1], PersonId = person.Id, ProgrammeId = world.One.Programme.Id, Role = Role.Coordinator });
            }
        });
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var (first, second, whole) = (await lead.GetStringAsync("/people"), await lead.GetStringAsync("/people?page=2"), await lead.GetStringAsync("/people?page=all"));

        foreach (var link in ids.Select(id => $"<a href=\"/people/{id}\">"))
        {
            Assert.True(first.Contains(link, StringComparison.Ordinal) ^ second.Contains(link, StringComparison.Ordinal), link);
            Assert.Contains(link, whole, StringComparison.Ordinal);
        }

        Assert.Contains("href=\"/people?page=2\"", first, StringComparison.Ordinal);
        Assert.Contains("Page 2 of 2", second, StringComparison.Ordinal);
        Assert.Contains("Page by page", whole, StringComparison.Ordinal);
    }
}
