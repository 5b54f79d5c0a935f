namespace Tankside.Portal.Flags.Numbers;

public static partial class NumberWords
{
    private static NumberGroup Deaths => new("deaths", "Deaths and losses",
    [
        new("die-off.tail", "Die-off: how unlikely by chance", "A larger value tells die-offs sooner, and oftener for nothing."),
        new("die-off.fewest", "Die-off: fewest dead", "Fewer dead in two days than this are never told as a die-off."),
        new("die-off.share", "Die-off in any case", "When this part of the fish died in two days it is a die-off, whatever is usual."),
        new("die-off.rise-interval", "Slow rise: dead over the usual", "A smaller value tells a slow rise sooner, and oftener for nothing."),
        new("die-off.rise-tail", "Slow rise: how unlikely by chance", "A larger value tells a slow rise sooner, and oftener for nothing."),
        new("die-off.rise-times", "Slow rise: times the usual", "The look for a slow rise is sharpest for losses of so many times the usual."),
        new("die-off.rise-after", "Slow rise: days after arrival", "A slow rise is looked for only after so many days in the tank."),
        new("die-off.hatch-times", "Losses at hatch", "Around half hatch so many times the usual loss is expected."),
        new("die-off.base", "Usual loss", "The deaths a fish and day that are expected before the lot itself shows what is usual."),
    ]);

    private static NumberGroup InCommon => new("in-common", "What tanks have in common",
    [
        new("shared.tail", "Shared cause: how unlikely by chance", "A larger value names a shared cause sooner, and oftener for nothing."),
        new("shared.fewest", "Shared cause: fewest tanks", "Fewer tanks in trouble than this are never put together."),
        new("shared.cut", "Shared cause: a tank in trouble", "A tank counts as in trouble when what it shows is no likelier by itself than this."),
        new("shared.base-weight", "Shared cause: weight of the usual", "The larger, the more the usual chance of trouble counts against what the other tanks show."),
        new("shared.objection", "Shared cause: when others object", "The sound tanks that have the same in common speak against it above this."),
        new("shared.chance.loss", "Die-off by itself", "How often a tank has a die-off with no cause in common; larger makes shared causes rarer."),
        new("shared.chance.rise", "Slow rise by itself", "How often losses rise slowly with no cause in common."),
        new("shared.chance.early-hatch", "Hatch outside its days by itself", "How often a hatch falls outside its interval with no cause in common."),
        new("shared.chance.water", "Bad water test by itself", "How often a water test is bad with no cause in common."),
        new("shared.chance.power", "Heat, chiller, pump or air by itself", "How often these go wrong within a day without a power cut."),
        new("shared.chance.chiller", "Chiller trouble by itself", "How often a chiller fails with no cause in common, such as its batch."),
        new("shared.near", "Troubles of one power cut", "Troubles further apart than this are not put to one cut."),
        new("shared.arrival", "Dead on arrival", "A tank counts for a bad delivery when this part came dead."),
    ]);

    private static NumberGroup Silence => new("silence", "Silence and mornings",
    [
        new("silent.days", "Silent: school days", "A tank without a reading for so many school days is put on the round."),
        new("silent.days-after-flag", "Silent after a bad reading", "After a bad reading a tank is told as silent this soon."),
        new("silent.after-break-hour", "First morning after a break", "After closed days a tank is told as silent from this hour on."),
        new("rehearsal.call-minutes", "A call in a rehearsal", "A practised morning reckons with so many minutes a call."),
    ]);

    private static NumberGroup HatchAndFeeding => new("hatch-and-feeding", "Hatch, feeding and eggs to come",
    [
        new("early-hatch.first-before-half", "First hatch before half", "The first hatch is expected so long before half have hatched."),
        new("early-hatch.days", "Early hatch: days it is told", "A hatch that came early is told for so many days."),
        new("feeding.break-days", "What is a break", "So many closed days in a row count as a break in which nobody feeds."),
        new("feeding.days-before", "School days to learn to eat", "A swim-up with fewer school days than this before a break is too near it."),
        new("feeding.chance", "Swim-up too near: chance", "A swim-up too near a break is told when it is at least this likely."),
        new("feeding.near", "Swim-up too near: for today", "So many days before the break it becomes something for today."),
        new("feeding.unfed-days", "Unfed days that lose all", "So many closed days unfed are reckoned to lose the whole share."),
        new("feeding.coldest", "Too cold to feed", "In colder water a tank’s page gives no amount of food and asks to ring first."),
        new("feeding.change", "Water changed a day while feeding", "The more is changed, the more food a tank is taken to bear without a ripe filter."),
        new("feeding.ammonia", "Ammonia borne while feeding", "Where food would bring more ammonia than this, a tank’s page asks for a ripe filter."),
        new("not-ready.ahead", "Not ready: days before eggs", "A tank that is not ready is told so many days before its eggs are due."),
        new("not-ready.days", "Ready: days at the set point", "A tank is ready after so many days at its set point."),
        new("not-ready.off", "Ready: how near the set point", "Readings within this of the set point count towards being ready."),
        new("tally.share", "Account that does not add up", "A ledger is told as not balanced when this part of those that came is missing or too many."),
    ]);

    private static NumberGroup SetPoints => new("set-points", "Steering by the set point",
    [
        new("set-point.low", "Coldest set point", "No plan turns a dial colder than this."),
        new("set-point.high", "Warmest set point", "No plan turns a dial warmer than this for eggs and alevins."),
        new("set-point.step", "Step of a day", "No plan turns a dial further than this in a day."),
        new("set-point.swim-up-weight", "Swim-up weighed against hatch", "The larger, the rather a plan lets a hatch fall on a closed day than a swim-up too near a break."),
        new("set-point.alike", "Chances that are alike", "Plans whose chances differ by less count as equal, and the smaller change wins."),
        new("set-point.filter-cold", "Too cold for a filter", "Under this temperature a page says that a filter ripens slowly."),
    ]);

    private static NumberGroup Spares => new("spares", "Spares and drives",
    [
        new("drive.road-factor", "Road against straight line", "Drives are reckoned so many times longer than the straight line."),
        new("drive.km-an-hour", "Speed of a drive", "Drives are reckoned at this speed."),
        new("kit.failures-a-season", "Chillers that fail", "More failures mean more spares."),
        new("kit.repair-weeks", "A repair takes", "The longer a repair takes, the more spares are needed."),
        new("kit.season-weeks", "A season lasts", "Failures of a season are spread over so many weeks."),
        new("kit.cover", "How surely spares are enough", "The spares are planned to be enough in this part of seasons and storms."),
        new("kit.storm-share", "Not back after a storm", "So large a part of chillers or pumps under a storm is planned to need a spare."),
    ]);

    private static NumberGroup EggsAndReleases => new("eggs-and-releases", "Eggs ordered and releases told",
    [
        new("eggs.per-litre", "Eggs a litre", "What a tank is offered when eggs are allotted by its size."),
        new("eggs.reserve", "Reserve of an order", "This part is ordered on top and kept for a week after delivery."),
        new("eggs.pack", "Eggs of one pack", "Orders are rounded up to whole packs."),
        new("eggs.certainty", "How surely the wish is reached", "The surer the releases have to reach the wish, the more eggs are ordered."),
        new("tempering.apart", "Bucket and stream apart", "Where they are further apart, the plan and the entry of a release ask for slow mixing."),
        new("tempering.coldest", "Waiting for release: coldest", "No tempering plan turns a dial colder than this; what is left is for the bucket."),
        new("tempering.warmest", "Waiting for release: warmest", "No tempering plan turns a dial warmer than this; what is left is for the bucket."),
        new("report-late.days", "Report of a release: days", "A release whose report is not sent after so many days is told; where the permit says another number, the permit goes first."),
        new("report-due.remind-days", "Report of a release: reminder", "A reminder goes out so many days before a report is due."),
    ]);

    private static NumberGroup Kept => new("kept", "How long things are kept",
    [
        new("keep.letters", "Mails: days", "Mails that were sent or given up are deleted after so many days. Readings, the ledger, releases and flags are never deleted by time."),
        new("keep.photos", "Photos of tanks: days", "A photo is deleted so many days after it came."),
        new("keep.sheets", "Sheets never stored: days", "A sheet that was looked at and not stored is deleted after so many days."),
        new("keep.drafts", "Unfinished words: days", "What somebody was typing and never sent is deleted after so many days."),
        new("keep.invitations", "Ended invitations: days", "Invitations that were accepted, withdrawn or ran out are deleted after so many days."),
        new("keep.changes", "Record of changes: days", "Lines of who set what are deleted after so many days."),
    ]);
}
