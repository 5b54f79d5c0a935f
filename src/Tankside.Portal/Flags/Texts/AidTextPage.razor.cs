using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Changes;
using Tankside.Portal.Flags.FirstAidTexts;

namespace Tankside.Portal.Flags.Texts;

public sealed partial class AidTextPage(KeepTexts keep, AidShowing showing, ChangeBook changes) : SheetPage<AidTextForm>
{
    private AidTopic? topic;
    private OwnTexts texts = OwnTexts.None;
    private ShownTank shown = null!;
    private FirstAidScript said = null!, ours = null!;
    private Bilingual? classLine;
    private bool looked;
    private IReadOnlyList<string> tanks = [];
    private IReadOnlyList<ChangeLine> history = [];

    [Parameter]
    public required string Key { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private bool IsLead => Asking.Is(Role.ProgrammeLead);

    private bool IsOwn => texts.AnyUnder(topic!.Start);

    /// <summary>Somebody else was first.</summary>
    private bool Clashed { get; set; }

    private string ForWhom => AidShowing.MadeUp.FirstOrDefault(m => m.Value == shown.Value) is { Name: { } name } ? name : $"tank {shown.Value}";

    protected override async Task LoadAsync()
    {
        topic = AidTopics.Find(Key);
        if (topic is null)
        {
            Http.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        texts = await keep.LoadAsync(Asking, Http.RequestAborted);
        tanks = await showing.TanksAsync(Asking, Http.RequestAborted);
        shown = await showing.FindAsync(Asking, IsPost ? Input.Shown : Http.Request.Query["shown"], Http.RequestAborted);
        history = (await changes.LoadAsync(Asking, new ChangeFilter { What = nameof(OwnText), Begins = topic.Start }, Http.RequestAborted)).Lines;
        if (!IsPost)
        {
            var form = AidTextForm.Of(topic, texts);
            form.Seen = KeepTexts.Seen(texts.Under(topic.Start));
            Fill(form);
        }

        Show(texts);
    }

    private void Show(OwnTexts with)
    {
        var tank = shown.Tank with { Texts = with };
        (said, ours) = (FirstAid.Of(topic!, shown.Stage, tank), StageNames.Of(with).In(topic!.Ours(shown.Stage, tank)));
        classLine = topic.ForClass ? ClassLines.Of(topic.Kind, with) : null;
    }

    private async Task SaveAsync()
    {
        if (!IsLead || AidTextRules.Read(topic!, Input, Asking.ProgrammeId, Refuse) is not { } wanted)
        {
            return;
        }

        if (Input.Do == AidTextForm.Look)
        {
            looked = true;
            Show(texts.With(topic!.Start, wanted));
            return;
        }

        Tell(await keep.SaveAsync(
            Asking, topic!.Start, wanted, Input.Seen, $"First aid for {topic.Name.En} is said in {(wanted.Count == 0 ? "our words again" : "your own words now")}, in both languages.",
            Clash, Refuse, Http.RequestAborted));
    }

    private async Task TakeBackAsync() => Tell(IsLead
        ? await keep.SaveAsync(Asking, topic!.Start, [], Input.Seen, $"First aid for {topic.Name.En} is said in our words again.", Clash, Refuse, Http.RequestAborted)
        : null);

    /// <summary>Theirs is told, what was typed is kept, and sending it again keeps it.</summary>
    private void Clash(string seen)
    {
        (Input.Seen, Clashed) = (seen, true);
        Refuse("", "Somebody changed these words meanwhile; what stands now is shown here. What you typed is kept below; send it again if it should replace that.");
    }

    private void Tell(Notice? notice)
    {
        if (notice is not null)
        {
            Leave($"{TextWords.AddressOf(topic!)}#notice", notice);
        }
    }
}
