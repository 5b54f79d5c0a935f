namespace Tankside.Portal.Tests.Access;

public static partial class AddressTable
{
    /// <summary>What other programs ask, and what the framework brings along.</summary>
    private static IReadOnlyList<AddressRow> OfPrograms =>
    [
        Open("/api/v1/readings", "/api/v1/readings", "k kkkkk kk yyy k"),
        Get("/api/{**rest}", "/api/v2/nothing", NotThere),
        Get("/api/v1/tanks", "/api/v1/tanks", "k kkkkk kk ryy k"),
        Get("/api/v1/tanks/{code}/forecast", "/api/v1/tanks/{tank}/forecast", "k kkkkk kk yy- k"),
        Get("/api/v1/tanks/{code}/forecast", "/api/v1/tanks/{next-tank}/forecast", "k kkkkk kk -y- k"),
        Get("/api/v1/flags", "/api/v1/flags", "k kkkkk kk ryy k"),
        Get("/api/v1/flags", "/api/v1/flags?state=settled", "k kkkkk kk ryy k"),
        Get("/api/v1/seasons/{name}/totals", "/api/v1/seasons/{season}/totals", "k kkkkk kk ryy k"),
        Get("/api/v1/seasons/{name}/totals", "/api/v1/seasons/1990/totals", "k kkkkk kk r-- k"),
        Get("/api/v1/bench/development", "/api/v1/bench/development?species=brook-trout&stage=hatch&meanC=10", Everybody),
        Get("/api/v1/bench/warming", "/api/v1/bench/warming?litres=208&waterC=10&roomC=20&limitC=15", Everybody),
        Get("/api/v1/bench/oxygen", "/api/v1/bench/oxygen?waterC=9.5", Everybody),
        Get("/api/v1/bench/ammonia", "/api/v1/bench/ammonia?totalMgL=2&ph=8&waterC=10", Everybody),
        Get("/api/v1/bench/water-change", "/api/v1/bench/water-change?currentMgL=1&targetMgL=0.5&sourceMgL=0&largestChangePercent=25", Everybody),
        Get("/api/v1/bench/dechlorination", "/api/v1/bench/dechlorination?litres=100&chlorineMgL=2", Everybody),
        Get("/api/v1/bench/interval", "/api/v1/bench/interval?alive=81&of=263", Everybody),
        Get("/openapi/{documentName}.json", "/openapi/v1.json", Everybody),
        Get("/health/live", "/health/live", Everybody),
        Get("/health/ready", "/health/ready", Everybody),

        // The framework's own: files for everybody, the connection of a living page for members.
        Get(Files, "/css/app.css", Everybody),
        Get("/_framework/opaque-redirect", "/_framework/opaque-redirect", "s bbbbb bb sss s"),
        Open("/_blazor/negotiate", "/_blazor/negotiate?negotiateVersion=1", "k yyyyy yy kkk k"),
        Get("/_blazor", "/_blazor?id=guessed", "k ----- -- kkk k"),
        Open("/_blazor/disconnect/", "/_blazor/disconnect", "s bbbbb bb sss s"),
        Get("/_blazor/initializers/", "/_blazor/initializers", "s yyyyy yy sss s"),
    ];
}
