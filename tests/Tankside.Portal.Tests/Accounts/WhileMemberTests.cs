using System.Security.Claims;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Rendering;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Tests.Guards;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>A page that stays open outlives neither its person's role nor their session.</summary>
public partial class WhileMemberTests
{
    private static readonly Guid Person = Guid.CreateVersion7(), Programme = Guid.CreateVersion7();

    [Theory]
    [InlineData("nobody any more")]
    [InlineData("in another role")]
    [InlineData("in another programme")]
    public async Task What_it_shows_goes_and_it_is_asked_for_anew(string then)
    {
        var stays = new Stays();
        var living = new LivingPage.Session { Is = State(Member(Role.Coordinator)) };
        await using var services = new ServiceCollection().AddSingleton<NavigationManager>(stays).AddSingleton(Say.InEnglish).BuildServiceProvider();
        await using var renderer = new HtmlRenderer(services, NullLoggerFactory.Instance);

        await renderer.Dispatcher.InvokeAsync(async () =>
        {
            var page = await renderer.RenderComponentAsync<LivingPage>(ParameterView.FromDictionary(new Dictionary<string, object?> { [nameof(LivingPage.Of)] = living }));
            living.Changed();
            Assert.Contains("the round", page.ToHtmlString(), StringComparison.Ordinal);
            Assert.Equal((0, (string?)null), (living.Ended, stays.Asked));

            living.Is = State(then switch
            {
                "in another role" => Member(Role.KitHand),
                "in another programme" => Member(Role.Coordinator, Guid.CreateVersion7()),
                _ => new ClaimsPrincipal(new ClaimsIdentity()),
            });
            living.Changed();
            living.Changed();

            Assert.DoesNotContain("the round", page.ToHtmlString(), StringComparison.Ordinal);
            Assert.Contains("You are signed out here.", page.ToHtmlString(), StringComparison.Ordinal);
            Assert.Equal((1, "http://localhost/round"), (living.Ended, stays.Asked));
        });
    }

    [Fact]
    public void Every_living_page_stands_in_it()
    {
        var pages = SourceTree.Files("src", ".razor");
        var living = pages.Where(p => Directive().IsMatch(p.Text)).Select(p => p.Name)
            .Concat(pages.SelectMany(p => Placed().Matches(p.Text).Select(m => m.Groups[1].Value + ".razor"))).Distinct().ToList();

        Assert.NotEmpty(living);
        Assert.All(living, name => Assert.Contains("<WhileMember ", pages.Single(p => p.Name == name).Text, StringComparison.Ordinal));
    }

    private static Task<AuthenticationState> State(ClaimsPrincipal who) => Task.FromResult(new AuthenticationState(who));

    private static ClaimsPrincipal Member(Role role, Guid? programme = null) => new(new ClaimsIdentity(
        [new(ClaimTypes.NameIdentifier, Person.ToString()), new("programme", (programme ?? Programme).ToString()), new(ClaimTypes.Role, role.ToString())], "test"));

    [GeneratedRegex("^@rendermode InteractiveServer", RegexOptions.Multiline)]
    private static partial Regex Directive();

    [GeneratedRegex("<(\\w+)[^>]*@rendermode=\"InteractiveServer\"")]
    private static partial Regex Placed();

    private sealed class LivingPage : ComponentBase
    {
        [Parameter]
        public Session Of { get; set; } = null!;

        protected override void OnInitialized() => Of.Changed = StateHasChanged;

        protected override void BuildRenderTree(RenderTreeBuilder builder)
        {
            builder.OpenComponent<CascadingValue<Task<AuthenticationState>>>(0);
            builder.AddAttribute(1, "Value", Of.Is);
            builder.AddAttribute(2, "ChildContent", (RenderFragment)(inside =>
            {
                inside.OpenComponent<WhileMember>(0);
                inside.AddAttribute(1, nameof(WhileMember.Ended), EventCallback.Factory.Create(this, () => Of.Ended++));
                inside.AddAttribute(2, nameof(WhileMember.ChildContent), (RenderFragment)(words => words.AddContent(0, "the round")));
                inside.CloseComponent();
            }));
            builder.CloseComponent();
        }

        public sealed class Session
        {
            public Task<AuthenticationState> Is { get; set; } = null!;

            public Action Changed { get; set; } = null!;

            public int Ended { get; set; }
        }
    }

    private sealed class Stays : NavigationManager
    {
        public Stays() => Initialize("http://localhost/", "http://localhost/round");

        public string? Asked { get; private set; }

        protected override void NavigateToCore(string uri, NavigationOptions options) => Asked = options.ForceLoad ? uri : null;
    }
}
