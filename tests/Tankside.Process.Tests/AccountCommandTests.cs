using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>The commands about people and their letters: what they change, what they print where, and how they end.</summary>
public class AccountCommandTests
{
    [Theory, BothDatabases]
    public async Task A_second_step_is_switched_off_with_its_secret_and_then_there_is_none(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        using var installation = Installation.On(database, "Production");
        var world = new TestWorld();
        var (lead, other) = (world.One.People[Role.ProgrammeLead], world.One.People[Role.Coordinator]);
        foreach (var person in new[] { lead, other })
        {
            person.TwoFactorEnabled = true;
        }

        await using (var db = database.CreateDbContext())
        {
            db.AddRange(lead, other);
            db.UserTokens.AddRange(SecretOf(lead.Id), SecretOf(other.Id));
            await db.SaveChangesAsync();
        }

        var off = (await installation.RunAsync("second-step", "off", "--email", lead.Email!)).Good();
        var again = await installation.RunAsync("second-step", "off", "--email", lead.Email!);

        Assert.StartsWith($"The second step of {lead.Email} is off.", Assert.Single(off.Lines), StringComparison.Ordinal);
        Assert.Equal((1, ""), (again.ExitCode, again.Output));
        Assert.Contains($"There is no account '{lead.Email}' with a second step. Nothing was changed.", again.Trouble, StringComparison.Ordinal);
        await using var after = database.CreateDbContext();
        var stored = await after.Users.SingleAsync(p => p.Id == lead.Id);
        Assert.False(stored.TwoFactorEnabled);
        Assert.NotEqual(lead.SecurityStamp, stored.SecurityStamp);
        Assert.Equal(other.Id, (await after.UserTokens.SingleAsync()).UserId);
        Assert.True((await after.Users.SingleAsync(p => p.Id == other.Id)).TwoFactorEnabled);
    }

    [Theory, BothDatabases]
    public async Task A_report_in_a_file_marks_the_letter_and_the_address_and_says_so_in_a_line(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        using var installation = Installation.On(database, "Production");
        var programme = new TestWorld().One.Programme;
        var letter = new OutgoingLetter
        {
            Id = Guid.NewGuid(),
            Key = "a",
            ProgrammeId = programme.Id,
            To = "rosa@example.test",
            Subject = "About a",
            Text = "This is a.",
            WrittenAt = TestWorld.Now,
            NotBefore = TestWorld.Now,
            SentAt = TestWorld.Now,
            State = LetterState.Sent,
        };
        await using (var db = database.CreateDbContext())
        {
            db.AddRange(programme, letter);
            await db.SaveChangesAsync();
        }

        await File.WriteAllTextAsync(Path.Combine(installation.Folder, "report.eml"), Report(letter));
        var taken = (await installation.RunAsync("bounces", "report.eml")).Good();

        Assert.Equal("rosa@example.test: 5.1.1, refused for good: the letter and the address are marked", Assert.Single(taken.Lines));
        await using var after = database.CreateDbContext();
        Assert.Equal(LetterState.Bounced, (await after.OutgoingLetters.SingleAsync()).State);
        var mark = await after.RefusedAddresses.SingleAsync();
        Assert.Equal((RefusedAddress.Key(letter.To), "5.1.1"), (mark.Address, mark.Code));
    }

    [Theory]
    [InlineData("Subject: lunch\r\n\r\nSee you at noon.\r\n", "'report.eml' holds no delivery report")]
    [InlineData(null, "report.eml")]
    public async Task A_file_that_is_no_report_or_not_there_ends_with_1_and_says_which(string? content, string says)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseKind.Sqlite);
        using var installation = Installation.On(database, "Production");
        if (content is not null)
        {
            await File.WriteAllTextAsync(Path.Combine(installation.Folder, "report.eml"), content);
        }

        var answer = await installation.RunAsync("bounces", "report.eml");

        Assert.Equal((1, ""), (answer.ExitCode, answer.Output));
        Assert.Contains(says, answer.Trouble, StringComparison.Ordinal);
        await using var after = database.CreateDbContext();
        Assert.False(await after.RefusedAddresses.AnyAsync());
    }

    private static Microsoft.AspNetCore.Identity.IdentityUserToken<Guid> SecretOf(Guid person) =>
        new() { UserId = person, LoginProvider = "[AspNetUserStore]", Name = "AuthenticatorKey", Value = "ABCDEFGH" };

    private static string Report(OutgoingLetter letter) =>
        $"""
        From: Mail Delivery Subsystem <postmaster@example.test>
        To: tankside@example.test
        MIME-Version: 1.0
        Content-Type: multipart/report; report-type=delivery-status; boundary="b"

        --b
        Content-Type: text/plain

        It could not be delivered.

        --b
        Content-Type: message/delivery-status

        Reporting-MTA: dns; mail.example.test

        Final-Recipient: rfc822; {letter.To}
        Action: failed
        Status: 5.1.1

        --b
        Content-Type: text/rfc822-headers

        Message-ID: <{letter.Id:N}@example.test>
        Subject: {letter.Subject}

        --b--

        """.ReplaceLineEndings("\r\n");
}
