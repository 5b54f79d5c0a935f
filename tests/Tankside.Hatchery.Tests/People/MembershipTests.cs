using Tankside.Hatchery.People;

namespace Tankside.Hatchery.Tests.People;

public class MembershipTests
{
    private static readonly DateTime Sent = new(2027, 1, 4, 17, 0, 0, DateTimeKind.Utc);

    private static Invitation Invited() => new()
    {
        Email = "room7@example.org",
        SecretHash = "h",
        InvitedAt = Sent,
        ExpiresAt = Sent + Invitation.Lifetime,
    };

    [Fact]
    public void An_invitation_is_open_for_a_fortnight_and_not_at_its_end()
    {
        Assert.True(Invited().IsOpenAt(Sent));
        Assert.True(Invited().IsOpenAt(Sent.AddDays(14).AddTicks(-1)));
        Assert.False(Invited().IsOpenAt(Sent.AddDays(14)));
    }

    [Fact]
    public void An_invitation_that_was_used_or_withdrawn_is_not_open()
    {
        var (used, withdrawn) = (Invited(), Invited());
        used.AcceptedAt = Sent.AddHours(1);
        withdrawn.WithdrawnAt = Sent.AddHours(1);

        Assert.False(used.IsOpenAt(Sent.AddHours(2)));
        Assert.False(withdrawn.IsOpenAt(Sent.AddHours(2)));
    }

    [Fact]
    public void A_key_serves_its_own_tanks_or_all()
    {
        var (mine, other) = (Guid.NewGuid(), Guid.NewGuid());

        Assert.True(new ApiKey { SecretHash = "h", TankIds = [mine] }.Serves(mine));
        Assert.False(new ApiKey { SecretHash = "h", TankIds = [mine] }.Serves(other));
        Assert.False(new ApiKey { SecretHash = "h" }.Serves(mine));
        Assert.True(new ApiKey { SecretHash = "h", AllTanks = true }.Serves(other));
    }
}
