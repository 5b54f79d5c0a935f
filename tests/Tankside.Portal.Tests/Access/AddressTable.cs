namespace Tankside.Portal.Tests.Access;

/// <summary>
/// Every address of the portal and what it answers: y served, s sent to the sign-in, r refused (403 or the page that says so), k a key is
/// needed (401), - not found (404, or 410 for a link that no longer works), b let in but nothing there takes what was sent (400).
/// Columns: nobody | teacher, coordinator, kit hand, lead, agency contact | teacher of the other school, lead of the other programme |
/// logger's key, coordinator's key, coordinator's key of the other programme | room code.
/// </summary>
public static partial class AddressTable
{
    private const string Everybody = "y yyyyy yy yyy y", NotThere = "- ----- -- --- -";

    public static IReadOnlyList<AddressRow> Rows { get; } =
    [
        .. Page("/", "/", Everybody),
        .. Page("/not-found", "/not-found", Everybody),
        .. Page("/trouble", "/trouble", Everybody),
        .. Page("/look", "/look", Everybody, "look"),
        Get("/not-yours", "/not-yours", "r rrrrr rr rrr r"),
        Post("/not-yours", "/not-yours", "b bbbbb bb bbb b"),
        .. Page("/sign-in", "/sign-in", Everybody, "sign-in", "passkey"),
        .. Page("/sign-in/code", "/sign-in/code", Everybody, "code"),
        Post("/sign-in/passkey/options", "/sign-in/passkey/options", Everybody),
        .. Page("/forgot-password", "/forgot-password", Everybody, "forgot"),
        .. Page("/reset-password/{PersonId:guid}", "{password-link}", Everybody, "reset"),
        .. Page("/reset-password/{PersonId:guid}", "/reset-password/{person}?code=guessed", NotThere, "reset"),
        .. Page("/invitation/{Secret}", "/invitation/{invitation}", Everybody, "accept"),
        .. Page("/invitation/{Secret}", "/invitation/{person}", NotThere, "accept"),
        .. Page("/set-up/{Secret}", "/set-up/{person}", NotThere, "set-up"),

        .. Page("/bench", "/bench", Everybody),
        .. Page("/bench/development", "/bench/development", Everybody),
        .. Page("/bench/warming", "/bench/warming", Everybody),
        .. Page("/bench/oxygen", "/bench/oxygen", Everybody),
        .. Page("/bench/ammonia", "/bench/ammonia", Everybody),
        .. Page("/bench/water-change", "/bench/water-change", Everybody),
        .. Page("/bench/dechlorination", "/bench/dechlorination", Everybody),
        .. Page("/bench/interval", "/bench/interval", Everybody),

        .. Page("/round", "/round", "s ryryr ry sss s"),
        .. Page("/round", "/round?tank={tank}", "s ryryr ry sss s"),
        .. Page("/handover", "/handover", "s ryryr ry sss s"),
        Get("/handover.pdf", "/handover.pdf", "s ryryr ry sss s"),
        .. Page("/rehearsal", "/rehearsal", "s ryryr ry sss s", "start", "remove"),
        .. OneOf("/rehearsal/{Id:guid}", "/rehearsal/{rehearsal}", "s ryryr r- sss s", "call", "undo", "finish"),
        .. OneOf("/rehearsal/{Id:guid}", "/rehearsal/{other-rehearsal}", "s r-r-r ry sss s", "call", "undo", "finish"),
        .. Page("/sweeps", "/sweeps", "s ryryr ry sss s", "mark"),
        .. OneOf("/sweeps/{SweepId:guid}", "/sweeps/{sweep}", "s ryryr r- sss s", "message", "told", "end", "take-back", "reopen"),
        .. Page("/tanks", "/tanks", "s yyyyr yy sss s"),
        .. Page("/tanks/{Code}", "/tanks/{tank}", "s yyyyr -- sss s"),
        Get("/tanks/{code}/reading/", "/tanks/{tank}/reading", "s yyyyr -- sss s"),
        Post("/tanks/{code}/reading/", "/tanks/{tank}/reading", "s yyyyr -- sss s"),
        Post("/tanks/{code}/reading/answer", "/tanks/{tank}/reading/answer", "s yyyyr -- sss s"),
        Get("/tanks/{code}/reading/week", "/tanks/{tank}/reading/week", "s yyyyr -- sss s"),
        Post("/tanks/{code}/reading/week", "/tanks/{tank}/reading/week", "s yyyyr -- sss s"),
        Get("/tanks/{code}/reading/help", "/tanks/{tank}/reading/help", "s yyyyr -- sss s"),
        Post("/tanks/{code}/reading/help", "/tanks/{tank}/reading/help", "s yyyyr -- sss s"),

        .. Page("/readings/import", "/readings/import", "s yyryr yy sss s", "sheet"),
        Get("/readings/import/{id:guid}/rows.csv", "/readings/import/{import}/rows.csv", "s -yryr -- sss s"),
        .. OneOf("/readings/import/{Id:guid}", "/readings/import/{import}", "s -yryr -- sss s", "columns", "store", "discard", "undo"),
        .. OneOf("/readings/import/{Id:guid}", "/readings/import/{own-import}", "s yyryr -- sss s", "columns", "store", "discard", "undo"),

        .. Page("/places/import", "/places/import", "s ryryr ry sss s", "sheet"),
        Get("/places/import/examples/{holds}.csv", "/places/import/examples/kit.csv", "s ryryr ry sss s"),
        Get("/places/import/examples/{holds}.csv", "/places/import/examples/pupils.csv", "s r-r-r r- sss s"),
        .. OneOf("/places/import/{Id:guid}", "/places/import/{place-import}", "s ryryr r- sss s", "columns", "store", "discard", "undo"),
        .. OneOf("/places/import/{Id:guid}", "/places/import/{people-import}", "s r-ryr r- sss s", "columns", "store", "discard", "undo"),

        .. Page("/tanks/{Code}/photos", "/tanks/{tank}/photos", "s yyryr -- sss s", "photo", "take-down"),
        Get("/tanks/{code}/photos/{id:guid}.jpg", "/tanks/{tank}/photos/{photo}.jpg", "s yyryr -- sss s"),
        .. OneOf("/tanks/{Code}/backup", "/tanks/{tank}/backup", "s yyryr -- sss s", "backup"),
        .. Page("/tanks/{Code}/cards", "/tanks/{tank}/cards", "s yyyyr -- sss s"),
        Get("/tanks/{code}/cards/{kind}.pdf", "/tanks/{tank}/cards/emergency.pdf", "s yyyyr -- sss s"),
        Get("/tanks/{code}/cards/{kind}.pdf", "/tanks/{tank}/cards/pupil.pdf", "s ----r -- sss s"),
        Get("/tanks/cards/{kind}.pdf", "/tanks/cards/substitute.pdf", "s yyryr yy sss s"),
        Get("/tanks/{code}/wall-sheet.pdf", "/tanks/{tank}/wall-sheet.pdf", "s yyyyr -- sss s"),

        .. Page("/labels", "/labels", "s yyryr yy sss s", "missing"),
        .. Page("/labels/{Code}/replace", "/labels/{tank}/replace", "s yyryr -- sss s", "replace"),
        Get("/labels/all.pdf", "/labels/all.pdf", "s yyryr yy sss s"),
        Get("/labels/{schoolId:guid}.pdf", "/labels/{school}.pdf", "s yyryr -- sss s"),
        Get("/labels/tanks/{code}.pdf", "/labels/tanks/{tank}.pdf", "s yyryr -- sss s"),

        .. Page("/kit", "/kit", "s ryyyr ry sss s"),
        .. Page("/kit/new", "/kit/new", "s ryyyr ry sss s", "kit"),
        .. Page("/kit/depots", "/kit/depots", "s ryyyr ry sss s", "depot", "close"),
        .. Page("/kit/stock", "/kit/stock", "s ryyyr ry sss s", "consumable", "change", "ordered"),
        .. Page("/kit/failures", "/kit/failures", "s ryyyr ry sss s"),
        .. Page("/kit/spares", "/kit/spares", "s ryyyr ry sss s"),
        .. Page("/kit/{Serial}", "/kit/{kit}", "s ryyyr r- sss s", "act"),
        .. Page("/kit/{Serial}/correct", "/kit/{kit}/correct", "s ryyyr r- sss s", "correct"),
        .. Page("/kit/{Serial}/swap", "/kit/{kit}/swap", "s ryyyr r- sss s", "swap"),
        .. Page("/kit/{Serial}/photos", "/kit/{kit}/photos", "s ryyyr r- sss s", "photo", "take-down"),
        Get("/kit/{serial}/photos/{id:guid}.jpg", "/kit/{kit}/photos/{kit-photo}.jpg", "s ryyyr r- sss s"),
        Get("/kit/loans/{code}.pdf", "/kit/loans/{tank}.pdf", "s yyyyr -- sss s"),
        .. Page("/kit/ice/{Code}", "/kit/ice/{tank}", "s yyyyr -- sss s"),

        .. Page("/weekend", "/weekend", "s yyryr yy sss s"),
        .. Page("/calendar", "/calendar", "s yyyyr yy sss s"),
        .. Page("/calendar/feeds", "/calendar/feeds", "s yyryr yy sss s", "make", "revoke"),
        Get("/calendar/feeds/{secret}.ics", "/calendar/feeds/{feed}.ics", Everybody),
        Get("/calendar/feeds/{secret}.ics", "/calendar/feeds/{reply}.ics", NotThere),

        .. OneOf("/tanks/{Code}/plan", "/tanks/{tank}/plan", "s yyryr -- sss s", "keep", "end"),
        .. Page("/calendar/plan", "/calendar/plan", "s ryryr ry sss s"),
        .. Page("/calendar/plan/keep", "/calendar/plan/keep", "s ryryr ry sss s"),

        .. Page("/lots", "/lots", "s ryryr ry sss s"),
        .. Page("/lots/new", "/lots/new", "s ryryr ry sss s", "lot"),
        .. OneOf("/lots/{Name}", "/lots/L1", "s ryryr ry sss s", "lot"),
        .. Page("/lots/allot", "/lots/allot", "s ryryr ry sss s", "allot"),
        .. Page("/lots/order", "/lots/order", "s ryryr ry sss s"),
        .. Page("/lots/ready", "/lots/ready", "s ryryr ry sss s"),
        .. OneOf("/tanks/{Code}/ready", "/tanks/{tank}/ready", "s yyryr -- sss s", "list", "sign", "withdraw"),
        .. Page("/lots/tables", "/lots/tables", "s ryryr ry sss s", "table"),

        .. Page("/runs", "/runs", "s ryryr ry sss s", "run"),
        .. OneOf("/runs/{RunId:guid}", "/runs/{run}", "s ryryr r- sss s", "deed"),
        .. OneOf("/runs/{RunId:guid}/stops", "/runs/{run}/stops", "s ryryr r- sss s", "stops"),
        .. OneOf("/runs/{RunId:guid}/stops/{StopId:guid}", "/runs/{run}/stops/{run-stop}", "s ryryr r- sss s", "stop"),
        .. OneOf("/runs/{RunId:guid}/drivers", "/runs/{run}/drivers", "s ryryr r- sss s", "place", "driver", "take-out"),
        .. OneOf("/runs/{RunId:guid}/terms", "/runs/{run}/terms", "s ryryr r- sss s", "terms"),
        Get("/runs/{runId:guid}/drivers/{number:int}", "/runs/{run}/drivers/1", "s ryryr r- sss s"),
        Get("/runs/{runId:guid}/sheets.pdf", "/runs/{run}/sheets.pdf", "s ryryr r- sss s"),
        .. OneOf("/runs/{RunId:guid}/stops/{StopId:guid}/arrival", "/runs/{run}/stops/{run-stop}/arrival", "s yyryr -- sss s", "arrival"),

        // A driver's code is the key to that round.
        Get("/run/{code}/", "/run/{run-code}", Everybody),
        Get("/run/{code}/", "/run/{tank}", NotThere),
        Open("/run/{code}/ticks", "/run/{run-code}/ticks", "b bbbbb bb bbb b"),
        Open("/run/{code}/ticks", "/run/{tank}/ticks", NotThere),
        Get("/run/{code}/run.ics", "/run/{run-code}/run.ics", Everybody),
        Get("/run/{code}/run.ics", "/run/{tank}/run.ics", NotThere),

        .. Page("/ledger", "/ledger", "s yyryr yy sss s"),
        .. OneOf("/ledger/{Code}", "/ledger/{tank}", "s yyryr -- sss s", "line"),
        .. OneOf("/ledger/{Code}/received", "/ledger/{tank}/received", "s yyryr -- sss s", "receipt"),
        .. OneOf("/ledger/{Code}/move", "/ledger/{tank}/move", "s yyryr -- sss s", "move"),
        .. OneOf("/ledger/{Code}/correct/{LineId:long}", "/ledger/{tank}/correct/{line}", "s yyryr -- sss s", "correct"),
        .. OneOf("/ledger/{Code}/correct/{LineId:long}", "/ledger/{tank}/correct/{other-line}", "s --r-r -- sss s", "correct"),
        .. OneOf("/ledger/{Code}/close", "/ledger/{tank}/close", "s yyryr -- sss s", "close", "open"),
        .. Page("/releases/tempering", "/releases/tempering", "s yyryr yy sss s"),
        .. Page("/releases", "/releases", "s yyryr yy sss s", "release", "withdraw", "report", "unreport"),
        .. Page("/releases/permits", "/releases/permits", "s ryryr ry sss s", "permit"),
        .. Page("/releases/sites", "/releases/sites", "s ryryr ry sss s", "site"),
        .. Page("/releases/bookings", "/releases/bookings", "s yyryy yy sss s"),
        .. Page("/releases/bookings/ask", "/releases/bookings/ask", "s yyryr yy sss s", "ask"),
        .. Page("/releases/bookings/clashes", "/releases/bookings/clashes", "s ryryr ry sss s"),
        .. OneOf("/releases/bookings/{BookingId:guid}", "/releases/bookings/{booking}", "s yyryy -- sss s", "agency", "cancel"),
        .. OneOf("/releases/bookings/{BookingId:guid}/settle", "/releases/bookings/{booking}/settle", "s ryryr r- sss s", "settle"),
        .. OneOf("/releases/bookings/{BookingId:guid}/day", "/releases/bookings/{booking}/day", "s yyryr -- sss s", "checks", "count", "stands", "letgo"),
        .. Page("/releases/due", "/releases/due", "s ryryr ry sss s", "sent", "nil", "unnil"),
        .. OneOf("/releases/permits/{PermitId:guid}", "/releases/permits/{permit}", "s ryryr r- sss s", "permit"),
        .. Page("/releases/permits/{PermitId:guid}/papers", "/releases/permits/{permit}/papers", "s ryryr r- sss s", "paper", "take-away"),
        Get("/releases/permits/{permitId:guid}/papers/{id:guid}", "/releases/permits/{permit}/papers/{permit-paper}", "s ryryr r- sss s"),
        .. OneOf("/releases/sites/{SiteId:guid}", "/releases/sites/{site}", "s ryryr r- sss s", "site"),
        .. Page("/totals", "/totals", "s ryryy ry sss s"),
        Get("/totals/{name}.csv", "/totals/{season}.csv", "s ryryy ry sss s"),
        Get("/totals/{name}.csv", "/totals/1990.csv", "s r-r-- r- sss s"),
        .. Page("/totals/years", "/totals/years", "s ryryr ry sss s"),
        Get("/totals/years/seasons.csv", "/totals/years/seasons.csv", "s ryryr ry sss s"),
        Get("/totals/{name}/research.zip", "/totals/{season}/research.zip", "s ryryr ry sss s"),
        Get("/totals/{name}/research.zip", "/totals/1990/research.zip", "s r-r-r r- sss s"),
        Get("/totals/own.csv", "/totals/own.csv", "s r-r-- r- sss s"),
        .. Page("/agency", "/agency", "s ryryy ry sss s"),
        Get("/totals/{name}.xlsx", "/totals/{season}.xlsx", "s ryryy ry sss s"),
        Get("/totals/{name}.xlsx", "/totals/1990.xlsx", "s r-r-- r- sss s"),
        Get("/totals/{name}.pdf", "/totals/{season}.pdf", "s ryryy ry sss s"),
        Get("/totals/{name}.pdf", "/totals/1990.pdf", "s r-r-- r- sss s"),

        .. Page("/season", "/season", "s rrryr ry sss s"),
        .. Page("/season/account", "/season/account", "s rrryr ry sss s", "seal", "reopen"),
        .. Page("/season/report-columns", "/season/report-columns", "s rrryr ry sss s", "columns"),
        .. Page("/season/new", "/season/new", "s rrryr ry sss s", "season"),
        .. OneOf("/season/dates/{SeasonId:guid}", "/season/dates/{season-id}", "s rrryr r- sss s", "season", "take-out"),
        .. Page("/season/steps", "/season/steps", "s rrryr ry sss s"),
        .. Page("/season/closures", "/season/closures", "s rrryr ry sss s", "closure", "remove"),
        .. Page("/season/closures/calendar", "/season/closures/calendar", "s rrryr ry sss s", "calendar"),
        .. Page("/schools", "/schools", "s ryryr ry sss s", "put-back"),
        .. Page("/schools/new", "/schools/new", "s ryryr ry sss s", "school"),
        .. OneOf("/schools/{SchoolId:guid}", "/schools/{school}", "s ryryr r- sss s", "school", "take-out"),
        .. OneOf("/schools/{SchoolId:guid}/rooms/new", "/schools/{school}/rooms/new", "s ryryr r- sss s", "room", "take-out"),
        .. OneOf("/schools/{SchoolId:guid}/rooms/{RoomId:guid}", "/schools/{school}/rooms/{room}", "s ryryr r- sss s", "room", "take-out"),
        .. OneOf("/schools/{SchoolId:guid}/rooms/{RoomId:guid}/tanks/new", "/schools/{school}/rooms/{room}/tanks/new", "s ryryr r- sss s", "tank", "take-out"),
        .. OneOf("/schools/{SchoolId:guid}/rooms/{RoomId:guid}/tanks/{Code}", "/schools/{school}/rooms/{room}/tanks/{tank}", "s ryryr r- sss s", "tank", "take-out"),
        .. Page("/settings", "/settings", "s ryryr ry sss s"),
        .. Page("/settings/about/{Slug}", "/settings/about/oxygen", "s ryryr ry sss s"),
        .. Page("/settings/programme", "/settings/programme", "s ryryr ry sss s", "programme"),
        .. Page("/settings/texts", "/settings/texts", "s ryryr ry sss s"),
        .. Page("/settings/texts/{Key}", "/settings/texts/warm", "s ryryr ry sss s", "words", "ours"),
        .. Page("/settings/stages", "/settings/stages", "s ryryr ry sss s"),
        .. Page("/settings/stages/{Stage}", "/settings/stages/alevin", "s ryryr ry sss s", "name", "ours"),
        .. Page("/settings/{Key}", "/settings/warm.look.egg", "s ryryr ry sss s", "set", "default"),
        .. Page("/changes", "/changes", "s ryryr ry sss s"),
        Get("/changes.csv", "/changes.csv", "s ryryr ry sss s"),
        .. Page("/people", "/people", "s rrryr ry sss s", "invite", "withdraw", "revoke"),
        .. Page("/people/{MembershipId:guid}", "/people/{member}", "s rrryr r- sss s", "role", "password", "step", "sessions", "check", "erase", "remove"),

        .. Page("/people/keys/new", "/people/keys/new", "s rrryr ry sss s", "key"),
        .. Page("/people/keys/made", "/people/keys/made", "s rrryr ry sss s"),
        .. Page("/people/keys/{KeyId:guid}/replace", "/people/keys/{key}/replace", "s rrryr r- sss s", "rotate"),

        .. Page("/search", "/search", "s yyyyr yy sss s"),
        .. Page("/search", "/search?q=a", "s yyyyr yy sss s"),
        .. Page("/news", "/news", "s yyyyy yy sss s", "read"),
        .. Page("/me", "/me", "s yyyyy yy sss s", "me", "hour"),
        .. Page("/me/programme", "/me/programme", "s yyyyy yy sss s", "programme"),
        .. Page("/me/sign-in", "/me/sign-in", "s yyyyy yy sss s", "steps", "add", "remove", "password", "sessions"),
        .. Page("/me/sign-in/device", "/me/sign-in/device", "s yyyyy yy sss s", "device"),
        .. Page("/me/sign-in/codes", "/me/sign-in/codes", "s yyyyy yy sss s"),
        Post("/me/sign-in/passkey/options", "/me/sign-in/passkey/options", "s bbbbb bb sss s"),
        .. Page("/me/data", "/me/data", "s yyyyy yy sss s", "erase"),
        Get("/me/data.json", "/me/data.json", "s yyyyy yy sss s"),
        .. Page("/installation", "/installation", "s rrryr ry sss s"),
        .. Page("/letters", "/letters", "s rrryr ry sss s", "again"),

        .. Page("/announcements", "/announcements", "s ryryr ry sss s"),
        .. Page("/announcements/new", "/announcements/new", "s ryryr ry sss s", "announcement"),
        .. Page("/announcements/{Id:guid}", "/announcements/{announcement}", "s ryryr r- sss s", "take-back"),
        .. Page("/announcements/templates/{Key}", "/announcements/templates/welcome", "s ryryr ry sss s", "template", "remove"),
        .. Page("/announcements/templates/{Key}", "/announcements/templates/{own-template}", "s ryryr r- sss s", "template"),

        // The link at the end of a mail, for whoever has it.
        Get("/mail/{secret}/", "/mail/{leave}", Everybody),
        Get("/mail/{secret}/", "/mail/{tank}", NotThere),
        Open("/mail/{secret}/", "/mail/{leave}", Everybody),
        Open("/mail/{secret}/", "/mail/{tank}", NotThere),

        // The code is the key: whoever has it is served, whoever guesses is not.
        Get("/t/{code}/", "/t/{label}", Everybody),
        Get("/t/{code}/", "/t/{tank}", "- ----- -- --- y"),
        Get("/t/{code}/tank", "/t/{label}/tank", Everybody),
        Get("/t/{code}/tank", "/t/{tank}/tank", "- ----- -- --- y"),
        Open("/t/{code}/", "/t/{label}", Everybody),
        Open("/t/{code}/", "/t/{tank}", "- ----- -- --- y"),
        Open("/t/{code}/answer", "/t/{label}/answer", Everybody),
        Open("/t/{code}/answer", "/t/{tank}/answer", "- ----- -- --- y"),
        Get("/t/{code}/help", "/t/{label}/help", Everybody),
        Get("/t/{code}/help", "/t/{tank}/help", "- ----- -- --- y"),
        Open("/t/{code}/help", "/t/{label}/help", Everybody),
        Open("/t/{code}/help", "/t/{tank}/help", "- ----- -- --- y"),
        Get("/t/offline", "/t/offline", Everybody),

        // The link of a message to a teacher, for whoever has it.
        Get("/sweep/{secret}/", "/sweep/{reply}", Everybody),
        Get("/sweep/{secret}/", "/sweep/{tank}", NotThere),
        Open("/sweep/{secret}/", "/sweep/{reply}", Everybody),
        Open("/sweep/{secret}/", "/sweep/{tank}", NotThere),

        .. OfPrograms,

        // Last, because it ends the sessions. Nobody's session needs no token to end.
        new("POST", "/sign-out", "/sign-out", Everybody, WithoutToken: "y bbbbb bb yyy y"),
    ];

    /// <summary>The pattern under which all static files stand.</summary>
    public const string Files = "static files";

    /// <summary>A page answers a POST with each of its forms; one without forms takes none.</summary>
    private static IEnumerable<AddressRow> Page(string pattern, string address, string cells, params string[] forms) =>
        Page(pattern, address, cells, cells, forms);

    /// <summary>The page of one thing: where that is not found there is no form to take what is sent.</summary>
    private static IEnumerable<AddressRow> OneOf(string pattern, string address, string cells, params string[] forms) =>
        Page(pattern, address, cells, cells.Replace('-', 'b'), forms);

    private static IEnumerable<AddressRow> Page(string pattern, string address, string cells, string posted, string[] forms)
    {
        var without = Bare(cells);
        return [new("GET", pattern, address, cells),
            .. forms.Length > 0
                ? forms.Select(form => new AddressRow("POST", pattern, address, posted, form, without))
                : [new AddressRow("POST", pattern, address, without, WithoutToken: without)]];
    }

    private static AddressRow Get(string pattern, string address, string cells) => new("GET", pattern, address, cells);

    private static AddressRow Post(string pattern, string address, string cells) => new("POST", pattern, address, cells, WithoutToken: Bare(cells));

    /// <summary>A POST that needs no antiforgery token, because no cookie lets anybody in there or the address itself is the key.</summary>
    private static AddressRow Open(string pattern, string address, string cells) => new("POST", pattern, address, cells);

    /// <summary>Whoever is let in and sends no token is told that the form is not good, before anything is looked up.</summary>
    private static string Bare(string cells) => cells.Replace('y', 'b').Replace('-', 'b');
}
