using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Changes;

namespace Tankside.Portal.Flags.Texts;

public sealed partial class StageNamePage(KeepTexts keep, ChangeBook changes) : SheetPage<StageNameForm>
{
    private LifeStage? stage;
    private StageName ours = null!, now = null!;
    private OwnTexts texts = OwnTexts.None;
    private IReadOnlyList<ChangeLine> history = [];

    [Parameter]
    public required string Stage { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private bool IsLead => Asking.Is(Role.ProgrammeLead);

    private string Article => stage == LifeStage.Fry ? "las" : "los";

    protected override async Task LoadAsync()
    {
        stage = StageNames.Named(Stage);
        if (stage is not { } known)
        {
            Http.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        texts = await keep.LoadAsync(Asking, Http.RequestAborted);
        (ours, now) = (StageNames.OursOf(known), StageNames.NowOf(known, texts));
        history = (await changes.LoadAsync(Asking, new ChangeFilter { What = nameof(OwnText), Begins = StageNames.StartOf(known) }, Http.RequestAborted)).Lines;
        if (!IsPost)
        {
            Fill(StageNameForm.Of(known, texts));
        }
    }

    private async Task SaveAsync()
    {
        if (IsLead && StageNameWords.Read(stage!.Value, Input, texts, Asking.ProgrammeId, Refuse) is { } wanted)
        {
            Tell(await keep.SaveAsync(
                Asking, StageNames.StartOf(stage.Value), wanted, Input.Seen, $"{CountWords.Capital(ours.Many.En)} are called {Input.ManyEn?.Trim()} now, in Spanish {Input.ManyEs?.Trim()}.",
                Clash, Refuse, Http.RequestAborted));
        }
    }

    private async Task TakeBackAsync() => Tell(IsLead
        ? await keep.SaveAsync(Asking, StageNames.StartOf(stage!.Value), [], Input.Seen, $"They are called {ours.Many.En} again.", Clash, Refuse, Http.RequestAborted)
        : null);

    private void Clash(string seen)
    {
        Input.Seen = seen;
        Refuse("", $"Somebody changed this name meanwhile: it is now {now.One.En}, {now.Many.En}, in Spanish {now.One.Es}, {now.Many.Es}. What you typed is kept below; send it again if it should replace that.");
    }

    private void Tell(Notice? notice)
    {
        if (notice is not null)
        {
            Leave($"/settings/stages/{Stage}#notice", notice);
        }
    }
}
