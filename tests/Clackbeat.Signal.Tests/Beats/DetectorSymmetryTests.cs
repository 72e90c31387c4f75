using Clackbeat.Signal.Beats;
using CsCheck;
using static Clackbeat.Signal.Tests.Beats.DrawnRam;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>What may change about a record without its beats changing, for rams and rates drawn at random.</summary>
public class DetectorSymmetryTests
{
    /// <summary>A ram of random rhythm with ripples on its plateau, a spike and noise: times and pressures.</summary>
    private static readonly Gen<(double[] TimesS, double[] PressuresPa)> Rams =
        Gen.Select(Gen.Int[60, 200], Gen.Int[20, 150], Gen.Int[300, 1500], Gen.Int[0, 10_000], Gen.OneOf(Gen.Const(0.001), Gen.Const(0.002), Gen.Const(0.0005))).Select(
            (delivery, suction, open, seed, stepS) =>
            {
                var random = new Random(seed);
                double[] pressures = [.. Stay(OpenPa, 400), .. Enumerable.Range(0, 10).SelectMany(_ => (double[])
                [
                    .. Stay(DeliveryPa, delivery + random.Next(10)).Select((p, i) => p + (120e3 * Math.Exp(-i / 3.0)) + (5e3 * Math.Sin(i / 4.0))),
                    .. Stay(SuctionPa, suction + random.Next(10)), .. Stay(OpenPa, open + random.Next(100)),
                ])];
                return (Times(pressures.Length, stepS), pressures.Select(p => p + (600 * (random.NextDouble() - 0.5))).ToArray());
            });

    [Fact]
    public void A_clock_that_began_at_another_time_shifts_every_instant_and_nothing_else() =>
        Gen.Select(Rams, Gen.Int[-4000, 40_000]).Sample((ram, shift) =>
        {
            // In 256ths of a second, so that nothing is lost to rounding.
            double shiftS = shift / 256.0;
            double[] evenS = [.. ram.TimesS.Select((_, i) => i / 1024.0)];
            List<Beat> here = Found(ram.PressuresPa, evenS);
            List<Beat> there = Found(ram.PressuresPa, [.. evenS.Select(t => t + shiftS)]);
            Assert.Equal(9, here.Count);
            Assert.Equal(here.Count, there.Count);
            Assert.All(here.Zip(there), p =>
            {
                Assert.Equal(p.First.ClosureS + shiftS, p.Second.ClosureS, 1e-7);
                Assert.Equal(p.First.DeliveryEndS + shiftS, p.Second.DeliveryEndS, 1e-7);
                Assert.Equal(p.First.OpenStartS + shiftS, p.Second.OpenStartS, 1e-7);
                Assert.Equal((p.First.PeakPa, p.First.DeliveryPa, p.First.SuctionPa, p.First.OpenStartPa), (p.Second.PeakPa, p.Second.DeliveryPa, p.Second.SuctionPa, p.Second.OpenStartPa));
            });
        }, iter: 15);

    // A sensor in another unit: powers of two, so that nothing is lost to rounding.
    [Fact]
    public void Pressures_in_another_unit_give_the_same_instants_and_pressures_in_that_unit() =>
        Gen.Select(Rams, Gen.OneOf(Gen.Const(0.0625), Gen.Const(0.5), Gen.Const(4.0), Gen.Const(1024.0))).Sample((ram, factor) =>
        {
            RamScale scale = Scale with { SupplyPa = factor * Scale.SupplyPa, DeliveryPa = factor * Scale.DeliveryPa };
            List<Beat> pascals = Found(ram.PressuresPa, ram.TimesS);
            List<Beat> others = Found([.. ram.PressuresPa.Select(p => p * factor)], ram.TimesS, scale);
            Assert.Equal(9, pascals.Count);
            Assert.Equal(pascals.Select(b => b with
            {
                PeakPa = b.PeakPa * factor,
                PeakEstimatePa = b.PeakEstimatePa * factor,
                PeakUncertaintyPa = b.PeakUncertaintyPa * factor,
                DeliveryPa = b.DeliveryPa * factor,
                SuctionPa = b.SuctionPa * factor,
                OpenStartPa = b.OpenStartPa * factor,
            }), others);
        }, iter: 15);

    [Fact]
    public void A_sensor_with_a_wrong_zero_moves_the_pressures_and_no_instant_by_more_than_a_bin_s_doubt() =>
        Gen.Select(Rams, Gen.Double[-10e3, 40e3]).Sample((ram, zeroPa) =>
        {
            List<Beat> right = Found(ram.PressuresPa, ram.TimesS);
            List<Beat> wrong = Found([.. ram.PressuresPa.Select(p => p + zeroPa)], ram.TimesS);
            Assert.Equal(right.Count, wrong.Count);
            Assert.All(right.Zip(wrong), p =>
            {
                Assert.Equal(p.First.ClosureS, p.Second.ClosureS, 1e-6);
                Assert.Equal(p.First.OpenStartS, p.Second.OpenStartS, 1e-6);
                Assert.Equal(p.First.PeakPa + zeroPa, p.Second.PeakPa, 1e-6);
                Assert.Equal(p.First.DeliveryPa + zeroPa, p.Second.DeliveryPa, 1e-6);
                Assert.Equal(p.First.SuctionPa + zeroPa, p.Second.SuctionPa, 1e-6);
            });
        }, iter: 15);

    // The chain is broken by a stop and by a gap, so that beginnings and ends lie within and between chunks.
    [Fact]
    public void Lots_of_any_sizes_give_to_the_last_bit_what_sample_by_sample_gives() =>
        Gen.Select(Rams, Gen.Int[1, 5000].Array[1, 20], Gen.Int[0, 30_000]).Sample((ram, chunks, stop) =>
        {
            int at = Math.Min(ram.PressuresPa.Length - 1, stop);
            double[] pressures = [.. ram.PressuresPa[..at], .. Stay(OpenPa, 18_000), .. ram.PressuresPa[at..], .. ram.PressuresPa];
            double stepS = ram.TimesS[1];
            double[] timesS = [.. Times(pressures.Length - ram.TimesS.Length, stepS), .. Times(ram.TimesS.Length, stepS, (stepS * (pressures.Length - ram.TimesS.Length)) + 3.21)];
            List<Beat> beats = [];
            var many = new BeatDetector(Scale, w => beats.Add(w.Beat));
            for ((int from, int chunk) = (0, 0); from < timesS.Length; chunk++)
            {
                int to = Math.Min(from + chunks[chunk % chunks.Length], timesS.Length);
                many.Add(timesS.AsSpan(from..to), pressures.AsSpan(from..to));
                from = to;
            }

            many.Finish();
            Assert.Equal(Found(pressures, timesS, null, out BeatDetector one), beats);
            Assert.True(beats.Count > 9);
            Assert.Equal((one.Levels, one.LastClosureS, one.LowSinceS), (many.Levels, many.LastClosureS, many.LowSinceS));
        }, iter: 10);
}
