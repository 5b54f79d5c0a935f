using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>Twelve signs are no secret when anybody would try them.</summary>
public class GuessablePasswordTests
{
    [Theory]
    [InlineData("123456789012")]
    [InlineData("aaaaaaaaaaaaaaaa")]
    [InlineData("abcdefghijklmnop")]
    [InlineData("passwordpassword")]
    [InlineData("Password123456")]
    [InlineData("tankside-salmon-2027")]
    [InlineData("QwertyUiop12345")]
    [InlineData("Maren Alderbeck 1")]
    [InlineData("maren.alderbeck@cedar")]
    [InlineData("Contraseña2027")]
    public async Task What_anybody_would_try_is_refused_in_words(string password)
    {
        var result = await TryAsync(password);

        Assert.StartsWith("This is easy to guess:", Assert.Single(result.Errors).Description, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("a heron on the weir")]
    [InlineData("correct horse battery staple")]
    [InlineData("Salmon eat my red hats")]
    [InlineData("maren walks seven dogs")]
    [InlineData("x9!kQ2#vL7pZ")]
    public async Task What_only_its_owner_would_put_together_is_taken(string password) => Assert.True((await TryAsync(password)).Succeeded);

    [Fact]
    public async Task A_person_meets_it_where_a_password_is_chosen()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);

        var made = await host.CallAsync<UserManager<Person>, IdentityResult>(people =>
            people.CreateAsync(new Person { Id = Guid.CreateVersion7(), Name = "Maren Alderbeck", UserName = "m@alder.example", Email = "m@alder.example" }, "alderbeck1234"));

        Assert.Equal(["PasswordGuessable"], made.Errors.Select(e => e.Code));
    }

    private static Task<IdentityResult> TryAsync(string password) =>
        new GuessablePasswords(new ServiceCollection().AddSingleton(Say.InEnglish).BuildServiceProvider()).ValidateAsync(null!, new Person { Name = "Maren Alderbeck", Email = "maren.alderbeck@cedar.example" }, password);
}
