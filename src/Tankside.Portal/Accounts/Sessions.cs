using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

public static class Sessions
{
    /// <summary>How long an open session may outlive what ended it.</summary>
    public static readonly TimeSpan CheckEvery = TimeSpan.FromMinutes(1);

    /// <summary>
    /// Ends every open session of a person, with the save that follows. The concurrency stamp goes along, so that a sign-in that is just
    /// being written cannot put the old stamp back.
    /// </summary>
    public static void EndAll(Person person)
    {
        person.SecurityStamp = Guid.CreateVersion7().ToString("N");
        person.ConcurrencyStamp = Guid.CreateVersion7().ToString("N");
    }
}
