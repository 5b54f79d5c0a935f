using System.Net;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Tests.Shell;

/// <summary>Whoever can take another address at no cost is still counted as one.</summary>
public class VisitorTests
{
    [Theory]
    [InlineData("192.0.2.7", "192.0.2.7")]
    [InlineData("::ffff:192.0.2.7", "192.0.2.7")]
    [InlineData("2001:db8:1:2:3:4:5:6", "2001:db8:1:2::/64")]
    [InlineData("2001:db8:1:2:ffff::1", "2001:db8:1:2::/64")]
    [InlineData("2001:db8:1:3::1", "2001:db8:1:3::/64")]
    public void An_address_is_counted_as_itself_and_one_of_IPv6_with_its_whole_network(string address, string counted) =>
        Assert.Equal(counted, Visitor.Counted(IPAddress.Parse(address)));

    [Fact]
    public void Without_an_address_all_are_one() => Assert.Equal("unknown", Visitor.Counted(null));
}
