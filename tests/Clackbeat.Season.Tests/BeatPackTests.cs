using Clackbeat.Season.Store;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;
using CsCheck;

namespace Clackbeat.Season.Tests;

public class BeatPackTests
{
    private static readonly Gen<SeasonBeat> Beats =
        from closure in Gen.Double[0, 1e5]
        from interval in Gen.Double[0.01, 100]
        from peak in Gen.Double[-1e5, 1e8]
        from delivery in Gen.Double[-1e5, 1e8]
        from suction in Gen.Double[-1e5, 1e7]
        from flow in Gen.Select(Gen.Bool, Gen.Double[-5, 20], Gen.Double[-1, 1], Gen.Double[-1, 1])
        select new SeasonBeat(closure, interval, peak, delivery, suction, flow.Item1 ? new BeatFlow(flow.Item2, flow.Item3, flow.Item4) : null);

    [Fact]
    public void Any_beats_come_back_to_within_half_a_step() => Beats.Array[0, 40].Sample(beats =>
    {
        IReadOnlyList<SeasonBeat> back = BeatPack.Unpack(BeatPack.Pack(beats));
        Assert.Equal(beats.Length, back.Count);
        Assert.All(beats.Zip(back), pair =>
        {
            Assert.Equal(pair.First.ClosureS, pair.Second.ClosureS, 0.501e-4);
            Assert.Equal(pair.First.IntervalS, pair.Second.IntervalS, 0.501e-4);
            Assert.Equal(pair.First.PeakPa, pair.Second.PeakPa, 50.1);
            Assert.Equal(pair.First.DeliveryPa, pair.Second.DeliveryPa, 50.1);
            Assert.Equal(pair.First.SuctionPa, pair.Second.SuctionPa, 50.1);
            Assert.Equal(pair.First.Flow is null, pair.Second.Flow is null);
            Assert.Equal(pair.First.Flow?.DeliveredM3 ?? 0, pair.Second.Flow?.DeliveredM3 ?? 0, 0.501e-7);
            Assert.Equal(pair.First.Flow?.WasteM3 ?? 0, pair.Second.Flow?.WasteM3 ?? 0, 0.501e-7);
            Assert.Equal(pair.First.Flow?.ClosingVelocityMPerS ?? 0, pair.Second.Flow?.ClosingVelocityMPerS ?? 0, 0.501e-3);
        });
    }, iter: 200);

    [Fact]
    public void Damaged_bytes_are_refused_in_words_and_never_crash() => Gen.Byte.Array[0, 200].Sample(bytes =>
    {
        try
        {
            BeatPack.Unpack(bytes.Length > 0 ? [1, .. bytes] : bytes);
        }
        catch (InputException refusal)
        {
            Assert.Contains("damaged", refusal.Message, StringComparison.Ordinal);
        }
    }, iter: 500);
}
