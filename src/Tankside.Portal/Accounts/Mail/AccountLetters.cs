namespace Tankside.Portal.Accounts.Mail;

/// <summary>What the letters about accounts say.</summary>
public static class AccountLetters
{
    /// <param name="place">The role with its school, e.g. "teacher at Cedar Bend".</param>
    /// <param name="name">The invited adult's name, where it is known.</param>
    /// <param name="until">The last moment the link works, in the programme's own time.</param>
    public static Letter Invitation(string to, string inviter, string programme, string place, Uri link, string until, string? name = null) => new(
        to,
        $"Your invitation to {programme}",
        $"""
        Hello{(name is null ? "" : $" {name}")},

        {inviter} invites you to the programme {programme} on Tankside,
        as {place}.

        Open this link and choose a password:

        {link}

        It works once, until {until}.

        If you did not expect this mail, you need not do anything.

        {programme}, by Tankside
        """);

    public static Letter NewPassword(string to, string name, Uri link) => new(
        to,
        "A new password for Tankside",
        $"""
        Hello {name},

        A new password was asked for your account. If it was you, open this link:

        {link}

        It works once, for two hours.

        If it was not you, you need not do anything. Your password stays as it is.

        Tankside
        """);
}
