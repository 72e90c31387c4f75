using Clackbeat.Signal.Beats;
using static Clackbeat.Signal.Tests.Beats.DrawnRam;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>
/// A short pipe rings after the delivery valve has shut: the body swings about the open level while the waste valve falls open. A swing that
/// passes the middle between open and delivery level is no closure, since the column had no time at rest in which to gain speed.
/// </summary>
public class RingingRecoilTests
{
    // A beat of 800 ms: 120 ms of delivery, a ring of three swings of about 50 ms each, then open. The shortest lull that counts is 0.15 of
    // 680 ms, 102 ms; the first two swings stay below the middle (101 kPa) and the third passes it 124 ms after the delivery.
    private static double[] Ringing(double lastSwingPa) =>
    [
        .. Stay(DeliveryPa, 120),
        .. Stay(-40e3, 20), .. Stay(90e3, 32), .. Stay(-40e3, 20), .. Stay(90e3, 32), .. Stay(-40e3, 20), .. Stay(lastSwingPa, 16),
        .. Stay(OpenPa, 540),
    ];

    [Theory]
    [InlineData(90e3)]
    [InlineData(120e3)]
    [InlineData(150e3)]
    public void A_swing_of_the_recoil_is_no_closure(double lastSwingPa)
    {
        double[] pressures = [.. Stay(OpenPa, LeadSamples), .. Enumerable.Range(0, 12).SelectMany(i => i % 4 == 2 ? Ringing(lastSwingPa) : Ringing(60e3))];
        List<Beat> found = Found(pressures);

        // Twelve closures make eleven beats, all of one length.
        Assert.Equal(11, found.Count);
        Assert.All(found, b => Assert.Equal(0.8, b.IntervalS, 0.002));
    }
}
