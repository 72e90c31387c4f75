using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Signal.States;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Report.Tests;

/// <summary>
/// A ram that never was: a trace drawn by formula with the shape of a beat (leap, plateau, recoil, slow opening), and the
/// analysis such a trace would give. It shows pages and files, and proves nothing about rams.
/// </summary>
internal static class MadeUpRam
{
    public const double RateHz = 1000;

    /// <summary>A fact that says just these words.</summary>
    public static Fact Told(string words) => Fact.Of("source-lack", ("what", words));

    public static RamSite Site(string name = "Alder Spring ram") => new()
    {
        Name = name,
        Supply = new Supply { HeadM = 2.5, HeadUncertaintyM = 0.02, WaterTemperatureC = 12 },
        DrivePipe = new DrivePipe
        {
            Material = PipeMaterial.GalvanisedSteel,
            LengthM = 15,
            BoreM = 0.0525,
            WallM = 0.0039,
            PressureRatingPa = 2.5e6,
        },
        Delivery = new Delivery { HeadM = 20 },
        Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
    };

    /// <summary>Draws a record of some beats.</summary>
    /// <param name="beats">Whole beats.</param>
    /// <param name="gap">A stretch left without samples.</param>
    /// <param name="seed">Of the noise and the small differences from beat to beat.</param>
    public static (double[] TimeS, double[] PressurePa, List<Beat> Beats) Trace(int beats, Gap? gap = null, int seed = 7)
    {
        var random = new Random(seed);
        var times = new List<double>();
        var pressures = new List<double>();
        var list = new List<Beat>();
        double closure = 0.4;
        for (int i = 0; i < beats; i++)
        {
            double interval = 1.26 * (1 + (0.012 * (random.NextDouble() - 0.5)));
            double peak = 3.3e5 * (1 + (0.08 * random.NextDouble()));
            list.Add(new Beat
            {
                Index = i,
                ClosureS = closure,
                NextClosureS = closure + interval,
                DeliveryEndS = closure + (0.11 * interval),
                OpenStartS = closure + (0.16 * interval),
                PeakPa = peak,
                PeakEstimatePa = peak * 1.03,
                PeakUncertaintyPa = peak * 0.04,
                DeliveryPa = 2.076e5,
                OpenStartPa = 0,
                SuctionPa = -0.9e5,
                HasGap = gap is { } g && g.StartS < closure + interval && g.StartS + g.LengthS > closure,
                Flow = new BeatFlow(1.424, 1.51e-4, 1.798e-3),
            });
            closure += interval;
        }

        for (long n = 0; n / RateHz < closure + 0.3; n++)
        {
            double t = n / RateHz;
            if (gap is { } g && t > g.StartS && t < g.StartS + g.LengthS)
            {
                continue;
            }

            times.Add(t);
            pressures.Add(Shape(t, list, list.Count == 0 ? 0 : (int)Math.Clamp((t - 0.4) / 1.26, 0, list.Count - 1)) + (700 * (random.NextDouble() - 0.5)));
        }

        return ([.. times], [.. pressures], list);
    }

    /// <summary>The analysis of such a record, every figure given.</summary>
    public static RamAnalysis Analysis(int beats = 31, Gap? gap = null, int seed = 7)
    {
        (double[] t, double[] p, List<Beat> list) = Trace(beats, gap, seed);
        return Bare(t, p, list) with
        {
            Flow = new FlowSummary
            {
                DeliveredM3PerS = new Figure(7.176 / 60_000, 0.35 / 60_000),
                WasteM3PerS = new Figure(85.48 / 60_000, 3.1 / 60_000),
                DrawnM3PerS = new Figure(92.65 / 60_000, 3.1 / 60_000),
                ClosingVelocityMPerS = new Figure(1.424, 0.03),
            },
            Efficiency = new EfficiencySummary
            {
                DAubuisson = new Figure(0.6196, 0.024),
                Rankine = new Figure(0.5877, 0.026),
                DriveSide = new Figure(0.655, 0.022),
            },
            DrivePipe = new DrivePipeSummary { WaveSpeedMPerS = new Figure(1247, 18), PipePeriodS = 0.02406, SensorBiasPa = 640 },
            Pipe = new PipeCheck
            {
                RatedPa = 2.5e6,
                AllowablePa = 2.2e6,
                PeakPa = 3.67e5,
                Verdict = PipeVerdict.Within,
                Rule = PressureRule.AsmeB313,
                FatigueLifeYears = null,
            },
            Diagnosis = [new Finding("healthy", 0.86, [Told("The beat is even: the interval varies by 0.4 %."), Told("The wave speed is what a steel pipe full of water should have.")], Told(""))],
            Limits = [Fact.Of("few-beats", ("beats", 7))],
        };
    }

    /// <summary>The analysis without flows, findings or verdict, as from a record that can carry no more.</summary>
    public static RamAnalysis Bare(double[] t, double[] p, List<Beat> list)
    {
        double[] intervals = [.. list.Select(b => b.IntervalS).Order()];
        double[] peaks = [.. list.Select(b => b.PeakPa).Order()];
        double duration = t.Length == 0 ? 0 : t[^1] - t[0];
        double? At(double[] sorted, double share) => sorted.Length == 0 ? null : sorted[(int)Math.Round(share * (sorted.Length - 1))];
        return new RamAnalysis
        {
            Input = new InputSummary
            {
                File = "alder-spring-morning.csv",
                DurationS = duration,
                SampleRateHz = RateHz,
                Samples = t.Length,
                Gaps = [.. Enumerable.Range(1, Math.Max(0, t.Length - 1)).Where(i => t[i] - t[i - 1] > 0.01).Select(i => new Gap(t[i - 1], t[i] - t[i - 1]))],
                ClippedSamples = 0,
            },
            State = RamState.Beating,
            Beats = new BeatSummary
            {
                Count = list.Count,
                RatePerMin = list.Count > 1 ? new Figure(60 / intervals.Average(), 0.06) : null,
                IntervalMedianS = At(intervals, 0.5),
                IntervalP05S = At(intervals, 0.05),
                IntervalP95S = At(intervals, 0.95),
                Irregularity = list.Count > 2 ? 0.0036 : null,
            },
            Pressure = new PressureSummary
            {
                Delivery = list.Count > 0 ? new Figure(2.076e5, 1.2e3) : null,
                PeakMedianPa = At(peaks, 0.5),
                PeakP95Pa = At(peaks, 0.95),
                PeakMaxPa = peaks.Length > 0 ? peaks[^1] : null,
                PeakTrue = list.Count > 0 ? new Figure(3.67e5, 1.4e4) : null,
                PeakCeiling = list.Count > 0 ? new Figure(1.804e6, 0.05e6) : null,
                SuctionMinPa = list.Count > 0 ? -0.92e5 : null,
                MeanPa = p.Length > 0 ? p.Average() : null,
                StaticPa = 2.45e4,
            },
            Pipe = new PipeCheck { RatedPa = 2.5e6, PeakPa = peaks.Length > 0 ? peaks[^1] : null, Verdict = PipeVerdict.Unknown },
            Limits = [Fact.Of("flow-withheld-backwards")],
            BeatList = list,
            Picture = Picture(t, p, list),
        };
    }

    /// <summary>What plots need, made from samples.</summary>
    public static TracePicture Picture(double[] t, double[] p, List<Beat> beats)
    {
        Beat? first = beats.Count > 1 ? beats[1] : beats.FirstOrDefault();
        Beat? last = beats.Count > 3 ? beats[3] : beats.LastOrDefault();
        return new TracePicture
        {
            Whole = Envelope(t, p),
            Excerpt = Cut(t, p, (first?.ClosureS ?? 0) - 0.2, (last?.NextClosureS ?? 4) + 0.2, 0),
            Overlay = [.. beats.Where((_, i) => i % Math.Max(1, beats.Count / 60) == 0).Select(b => Cut(t, p, b.ClosureS - 0.05, b.NextClosureS, b.ClosureS))],
        };
    }

    private static TraceCurve Cut(double[] t, double[] p, double from, double to, double zero)
    {
        int first = Array.FindIndex(t, x => x >= from);
        int count = first < 0 ? 0 : t.Skip(first).TakeWhile(x => x <= to).Count();
        return first < 0
            ? new TraceCurve([], [])
            : new TraceCurve([.. t.AsSpan(first, count).ToArray().Select(x => x - zero)], p.AsSpan(first, count).ToArray());
    }

    private static Envelope Envelope(double[] t, double[] p)
    {
        const int Stretches = 2000;
        if (t.Length < 2)
        {
            return new Envelope(0, 1, [], []);
        }

        double step = (t[^1] - t[0]) / Stretches;
        double[] low = [.. Enumerable.Repeat(double.NaN, Stretches)];
        double[] high = [.. Enumerable.Repeat(double.NaN, Stretches)];
        for (int i = 0; i < t.Length; i++)
        {
            int at = Math.Min(Stretches - 1, (int)((t[i] - t[0]) / step));
            low[at] = double.IsNaN(low[at]) ? p[i] : Math.Min(low[at], p[i]);
            high[at] = double.IsNaN(high[at]) ? p[i] : Math.Max(high[at], p[i]);
        }

        return new Envelope(t[0], step, low, high);
    }

    private static double Shape(double t, List<Beat> beats, int guess)
    {
        if (beats.Count == 0)
        {
            return 2.45e4;
        }

        for (int i = Math.Max(0, guess - 2); i < Math.Min(beats.Count, guess + 3); i++)
        {
            Beat b = beats[i];
            if (t >= b.ClosureS && t < b.NextClosureS)
            {
                double since = t - b.ClosureS;
                return t < b.DeliveryEndS
                    ? b.DeliveryPa + ((b.PeakPa - b.DeliveryPa) * Math.Exp(-since / 0.006) * Math.Cos(since * 300))
                    : t < b.OpenStartS
                        ? b.SuctionPa * Math.Sin(Math.PI * Math.Min(1, (t - b.DeliveryEndS) / b.RecoilLengthS))
                        : 6000 * Math.Pow(Math.Tanh((t - b.OpenStartS) / 0.7), 2);
            }
        }

        return 3000;
    }
}
