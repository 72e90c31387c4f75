using Clackbeat.Watch.Live;
using Clackbeat.Watch.Stream;
using Clackbeat.Watch.Web;

namespace Clackbeat.Watch.Tests;

/// <summary>The numbers that keep strangers out and the program alive, written out with their reasons.</summary>
public class ProtectingNumbersTests
{
    /// <summary>30 letters and figures that nobody misreads, seven of them: 2·10¹⁰ codes against ten tries a minute.</summary>
    [Fact]
    public void A_code_is_one_of_twenty_thousand_million()
    {
        List<string> codes = [];
        for (int i = 0; i < 200; i++)
        {
            using var code = new OneTimeCode(codes.Add);
        }

        Assert.All(codes, code => Assert.Equal(7, code.Length));
        Assert.Equal(30, codes.SelectMany(c => c).Distinct().Count());
        Assert.DoesNotContain(codes.SelectMany(c => c), c => "01ILOU".Contains(c, StringComparison.Ordinal));
        Assert.Equal(200, codes.Distinct().Count());
    }

    /// <summary>Each page holds one connection and up to 128 events of a few kilobytes: 32 pages stay under some 20 MB.</summary>
    [Fact]
    public void Pages_and_devices_are_few_enough_for_a_small_computer()
    {
        Assert.Equal(32, EventHub.MostPages);
        Assert.Equal(128, EventHub.MostWaiting);
        Assert.Equal(16, Sessions.Most); // A household's telephones; a seventeenth lets the oldest go.
    }

    /// <summary>
    /// Half as long again as the longest usual interval: a sticking valve's late beat comes within that, and a ram that beats once a
    /// second is told to stand within two.
    /// </summary>
    [Fact]
    public void A_beat_may_be_late_by_half() => Assert.Equal(1.5, StandstillWatch.Overdue);
}
