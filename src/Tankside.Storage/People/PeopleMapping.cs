using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.People;

namespace Tankside.Storage.People;

internal sealed class PersonMapping : IEntityTypeConfiguration<Person>
{
    public void Configure(EntityTypeBuilder<Person> person) => person.ToTable("People");
}

/// <summary>
/// The framework maps passkeys with the third version of its schema only, which would change its other tables too for nothing that is used here.
/// </summary>
internal sealed class PasskeyMapping : IEntityTypeConfiguration<IdentityUserPasskey<Guid>>
{
    public void Configure(EntityTypeBuilder<IdentityUserPasskey<Guid>> passkey)
    {
        passkey.ToTable("UserPasskeys");
        passkey.HasKey(p => p.CredentialId);
        passkey.HasOne<Person>().WithMany().HasForeignKey(p => p.UserId);
        passkey.Property(p => p.CredentialId).HasMaxLength(1024); // WebAuthn allows 1,023 bytes.
        passkey.OwnsOne(p => p.Data).ToJson("data");
        passkey.Property<DateTime?>(PasskeyUse.LastUsedAt);
    }
}

internal sealed class OutgoingLetterMapping : IEntityTypeConfiguration<OutgoingLetter>
{
    public void Configure(EntityTypeBuilder<OutgoingLetter> letter)
    {
        letter.HasOne<Programme>().WithMany().HasForeignKey(l => l.ProgrammeId);
        letter.HasIndex(l => l.Key).IsUnique();
        letter.HasIndex(l => new { l.State, l.NotBefore });
        letter.Property(l => l.Text).HasMaxLength(40_000);
        letter.Property(l => l.Version).IsConcurrencyToken();
    }
}

internal sealed class RefusedAddressMapping : IEntityTypeConfiguration<RefusedAddress>
{
    public void Configure(EntityTypeBuilder<RefusedAddress> address) => address.HasKey(a => a.Address);
}

internal sealed class DraftMapping : IEntityTypeConfiguration<Draft>
{
    public void Configure(EntityTypeBuilder<Draft> draft)
    {
        draft.HasKey(d => new { d.PersonId, d.Key });
        draft.HasOne<Person>().WithMany().HasForeignKey(d => d.PersonId);
        draft.Property(d => d.Text).HasMaxLength(Draft.Longest);
    }
}

internal sealed class NewsSeenMapping : IEntityTypeConfiguration<NewsSeen>
{
    public void Configure(EntityTypeBuilder<NewsSeen> seen)
    {
        seen.HasKey(n => new { n.PersonId, n.ProgrammeId });
        seen.HasOne<Person>().WithMany().HasForeignKey(n => n.PersonId);
        seen.HasOne<Programme>().WithMany().HasForeignKey(n => n.ProgrammeId);
    }
}

internal sealed class OpenSessionMapping : IEntityTypeConfiguration<OpenSession>
{
    public void Configure(EntityTypeBuilder<OpenSession> session)
    {
        session.HasOne<Person>().WithMany().HasForeignKey(s => s.PersonId);
        session.Property(s => s.Browser).HasMaxLength(40);
        session.Property(s => s.System).HasMaxLength(40);
    }
}

internal sealed class ChangeMapping : IEntityTypeConfiguration<Change>
{
    public void Configure(EntityTypeBuilder<Change> change)
    {
        change.HasOne<Programme>().WithMany().HasForeignKey(c => c.ProgrammeId);
        change.HasIndex(c => new { c.ProgrammeId, c.At });
        change.HasIndex(c => new { c.ProgrammeId, c.What, c.Which });
        change.Property(c => c.Fields).HasMaxLength(Change.LongestFields);
    }
}

internal sealed class ProgrammeMapping : IEntityTypeConfiguration<Programme>
{
    public void Configure(EntityTypeBuilder<Programme> programme)
    {
        programme.HasIndex(p => p.Name).IsUnique();
        // A program that does not know the column yet makes programmes too.
        programme.Property(p => p.SecondStepFor).HasDefaultValue(StepDemand.Nobody);
        programme.Property(p => p.Version).IsConcurrencyToken();
    }
}

internal sealed class SettingMapping : IEntityTypeConfiguration<ProgrammeSetting>
{
    public void Configure(EntityTypeBuilder<ProgrammeSetting> setting)
    {
        setting.HasKey(s => new { s.ProgrammeId, s.Key });
        setting.HasOne<Programme>().WithMany().HasForeignKey(s => s.ProgrammeId);
        setting.Property(s => s.Version).IsConcurrencyToken();
    }
}

internal sealed class OwnTextMapping : IEntityTypeConfiguration<OwnText>
{
    public void Configure(EntityTypeBuilder<OwnText> text)
    {
        text.HasKey(t => new { t.ProgrammeId, t.Key });
        text.HasOne<Programme>().WithMany().HasForeignKey(t => t.ProgrammeId);
        text.Property(t => t.En).HasMaxLength(OwnText.Longest);
        text.Property(t => t.Es).HasMaxLength(OwnText.Longest);
        text.Property(t => t.Version).IsConcurrencyToken();
    }
}

internal sealed class MembershipMapping : IEntityTypeConfiguration<Membership>
{
    public void Configure(EntityTypeBuilder<Membership> membership)
    {
        membership.HasOne<Person>().WithMany().HasForeignKey(m => m.PersonId);
        membership.HasOne<Programme>().WithMany().HasForeignKey(m => m.ProgrammeId);
        membership.HasIndex(m => new { m.PersonId, m.ProgrammeId }).IsUnique();
    }
}

internal sealed class InvitationMapping : IEntityTypeConfiguration<Invitation>
{
    public void Configure(EntityTypeBuilder<Invitation> invitation)
    {
        invitation.HasOne<Programme>().WithMany().HasForeignKey(i => i.ProgrammeId);
        invitation.HasIndex(i => i.SecretHash).IsUnique();
        invitation.Property(i => i.Version).IsConcurrencyToken();
    }
}

internal sealed class SetUpLinkMapping : IEntityTypeConfiguration<SetUpLink>
{
    public void Configure(EntityTypeBuilder<SetUpLink> link) => link.Property(l => l.Version).IsConcurrencyToken();
}

internal sealed class ApiKeyMapping : IEntityTypeConfiguration<ApiKey>
{
    public void Configure(EntityTypeBuilder<ApiKey> key)
    {
        key.HasOne<Programme>().WithMany().HasForeignKey(k => k.ProgrammeId);
        key.HasIndex(k => k.SecretHash).IsUnique();
    }
}
