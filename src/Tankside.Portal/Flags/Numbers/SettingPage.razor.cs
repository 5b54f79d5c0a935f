using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Changes;

namespace Tankside.Portal.Flags.Numbers;

public sealed partial class SettingPage(NumberBook book, KeepNumber keep, ChangeBook changes) : SheetPage<NumberForm>
{
    private NumberNow? number;
    private IReadOnlyList<ChangeLine> history = [];
    private IReadOnlyList<NumberNow> all = [];

    [Parameter]
    public required string Key { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private bool IsLead => Asking.Is(Role.ProgrammeLead);

    /// <summary>The numbers that it may not pass.</summary>
    private IEnumerable<string> Bounds => SettingOrder.Pairs
        .Where(p => p.Upper.Key == Key).Select(p => $"not under “{NumberFigures.Name(p.Lower)}”, {NumberFigures.Of(ValueOf(p.Lower))}")
        .Concat(SettingOrder.Pairs.Where(p => p.Lower.Key == Key).Select(p => $"not over “{NumberFigures.Name(p.Upper)}”, {NumberFigures.Of(ValueOf(p.Upper))}"));

    protected override async Task LoadAsync()
    {
        all = (await book.LoadAsync(Asking, Http.RequestAborted)).Numbers;
        number = all.FirstOrDefault(n => n.Setting.Key == Key);
        if (number is null)
        {
            Http.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        history = (await changes.LoadAsync(Asking, new ChangeFilter { What = nameof(ProgrammeSetting), Which = Key }, Http.RequestAborted)).Lines;
        if (!IsPost)
        {
            var own = await keep.OwnAsync(Asking, Key, Http.RequestAborted);
            (Input.Value, Input.Seen, Input.Version) = (NumberFigures.Of(number.Value), KeepNumber.Seen(own), own?.Version ?? 0);
        }
    }

    private double ValueOf(Setting setting) => all.First(n => n.Setting.Key == setting.Key).Value;

    private async Task SetAsync() => Tell(IsLead ? await keep.SetAsync(Asking, number!.Setting, Input, Refuse, Http.RequestAborted) : null);

    private async Task TakeBackAsync() => Tell(IsLead ? await keep.TakeBackAsync(Asking, number!.Setting, Input, Refuse, Http.RequestAborted) : null);

    private void Tell(Notice? notice)
    {
        if (notice is not null)
        {
            Leave($"/settings/{Key}#notice", notice);
        }
    }
}
