using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Hosting.Internal;
using Npgsql;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Shell;

/// <summary>A connection string that names several hosts gets what it needs, and never one that cannot be written to.</summary>
public class SeveralHostsTests
{
    private const string Pair = "Host=one,two;Database=tankside";

    [Fact]
    public void Several_hosts_mean_whichever_is_the_primary()
    {
        var words = new NpgsqlConnectionStringBuilder(SeveralHosts.Primary(Pair));

        Assert.Equal("primary", words.TargetSessionAttributes);
        Assert.Equal(2, words.HostRecheckSeconds);
        Assert.Equal(3, words.Timeout);
    }

    [Fact]
    public void What_was_given_stays()
    {
        var words = new NpgsqlConnectionStringBuilder(SeveralHosts.Primary(Pair + ";Target Session Attributes=read-write;HostRecheckSeconds=7;Timeout=20"));

        Assert.Equal(("read-write", 7, 20), (words.TargetSessionAttributes, words.HostRecheckSeconds, words.Timeout));
    }

    [Fact]
    public void One_host_stays_as_it_is() => Assert.Null(new NpgsqlConnectionStringBuilder(SeveralHosts.Primary("Host=one;Database=tankside")).TargetSessionAttributes);

    [Theory]
    [InlineData("any")]
    [InlineData("standby")]
    [InlineData("prefer-primary")]
    public void Hosts_that_cannot_be_written_to_stop_the_start(string attributes)
    {
        var trouble = Assert.Throws<ConfigurationException>(() => Read(("ConnectionStrings:Tankside", $"{Pair};Target Session Attributes={attributes}")));

        Assert.Equal("ConnectionStrings:Tankside", trouble.Key);
        Assert.Contains("takes no write", trouble.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Long_reading_goes_to_the_primary_unless_somebody_says_otherwise()
    {
        Assert.Equal(ReadFrom.Primary, Read(("ConnectionStrings:Tankside", Pair)).ReadFrom);
        Assert.Equal(ReadFrom.Replica, Read(("ConnectionStrings:Tankside", Pair), ("Tankside:ReadFrom", "replica")).ReadFrom);
        Assert.Equal("Tankside:ReadFrom", Assert.Throws<ConfigurationException>(() => Read(("ConnectionStrings:Tankside", Pair), ("Tankside:ReadFrom", "both"))).Key);
    }

    [Fact]
    public void A_replica_needs_a_second_host()
    {
        var trouble = Assert.Throws<ConfigurationException>(() => Read(("ConnectionStrings:Tankside", "Host=one"), ("Tankside:ReadFrom", "Replica")));

        Assert.Equal("Tankside:ReadFrom", trouble.Key);
    }

    private static TanksideOptions Read(params (string Key, string Value)[] keys) => TanksideOptions.From(
        new ConfigurationBuilder().AddInMemoryCollection(keys.Append(("Tankside:Database", "PostgreSQL")).Select(k => KeyValuePair.Create(k.Item1, (string?)k.Item2))).Build(),
        new HostingEnvironment { EnvironmentName = Environments.Production, ContentRootPath = AppContext.BaseDirectory });
}
