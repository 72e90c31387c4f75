using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>Measures the signs of a record from its beats and a bounded number of their curves.</summary>
internal sealed class SignatureMaker(RamSite site, SiteHydraulics hydraulics)
{
    private const int LeastBeats = 5;

    // What a scatter of nothing counts as, so that its logarithm stays finite.
    private const double LeastScatter = 0.002;

    // An open valve that shows less than this of the supply head shows nothing a sensor could tell.
    private const double LeastClosing = 0.005;

    // Noise under a ten-thousandth of the jump is none.
    private const double LeastNoise = 1e-4;

    private readonly Dictionary<Sign, double> _signs = [];

    /// <summary>The signature, or null when the record has too few beats to speak for the ram.</summary>
    /// <param name="beats">Whole beats in order.</param>
    /// <param name="curves">Some of them sample by sample, time 0 at closure.</param>
    /// <param name="rateHz">Samples a second.</param>
    /// <param name="noisePa">Standard deviation of the sensor's noise [Pa].</param>
    /// <param name="column">What the flow's fit says of the moving water; null when the flows were withheld.</param>
    public Signature? Make(IReadOnlyList<Beat> beats, IReadOnlyList<TraceCurve> curves, double rateHz, double noisePa, ColumnSigns? column)
    {
        if (beats.Count < LeastBeats)
        {
            return null;
        }

        double openPa = Quantile(beats, b => b.OpenStartPa, 0.5);
        double deliveryPa = Quantile(beats, b => b.DeliveryPa, 0.5);
        double intervalS = Quantile(beats, b => b.IntervalS, 0.5);
        var scale = new BeatScale(openPa, deliveryPa - openPa, hydraulics.PipePeriodS, intervalS);
        BeatMarks[] marks = [.. curves.Select(c => BeatMarks.Of(c, scale)).OfType<BeatMarks>()];
        if (scale.JumpPa <= 0 || marks.Length < LeastBeats)
        {
            return null;
        }

        TraceCurve typical = TypicalBeat.Of(curves, intervalS);
        Rhythm(beats, marks, scale);
        Plateau(beats, marks, scale);
        Fall(marks, scale);
        Put(Sign.RecoilLength, Math.Log(Quantile(beats, b => b.RecoilLengthS, 0.5) / scale.PeriodS));
        Open(marks, scale);
        if (EchoFinder.Find(typical, scale.PeriodS, intervalS) is { } echo)
        {
            Put(Sign.Echo, Math.Log(scale.PeriodS / echo.PeriodS));
            Put(Sign.EchoAway, echo.SiteShort);
        }

        double endS = Median(marks, m => m.EndS);
        foreach ((Sign sign, double value) in column?.Measure(typical, endS, openPa + Median(marks, m => m.RestPa), scale.JumpPa) ?? [])
        {
            Put(sign, value);
        }

        return new Signature
        {
            Signs = _signs,
            Circumstances = Circumstances(scale, rateHz, noisePa),
            Typical = typical,
            DeliveryEndS = endS,
            OpenPa = openPa,
            DeliveryPa = deliveryPa,
            IntervalS = intervalS,
        };
    }

    private void Rhythm(IReadOnlyList<Beat> beats, BeatMarks[] marks, BeatScale scale)
    {
        double drive = Hydraulics.Water.Constants.GravityMPerS2 * site.Supply.HeadM / site.DrivePipe.LengthM;
        double[] intervals = Summaries.Sorted(beats, b => b.IntervalS);
        double At(double share) => Summaries.Quantile(intervals, share);
        Put(Sign.Interval, Math.Log(drive * At(0.5)));
        Put(Sign.OpenLength, Math.Log(drive * (At(0.5) - Median(marks, m => m.EndS))));
        Put(Sign.IntervalScatter, Scatter((At(0.75) - At(0.25)) / At(0.5)));
        Put(Sign.LongBeats, Scatter((At(0.95) - At(0.5)) / At(0.5)));
        Put(Sign.ShortBeats, Scatter((At(0.5) - At(0.05)) / At(0.5)));
        Put(Sign.EndScatter, (Quantile(marks, m => m.EndS, 0.9) - Quantile(marks, m => m.EndS, 0.1)) / scale.PeriodS);
    }

    private void Plateau(IReadOnlyList<Beat> beats, BeatMarks[] marks, BeatScale scale)
    {
        Put(Sign.Plateau, Math.Log(scale.JumpPa / hydraulics.PressurePa(site.Delivery.HeadM)));
        Put(Sign.Slope, Median(marks, m => m.Late - m.Early));
        Put(Sign.Bend, Median(marks, m => m.Middle - (0.5 * (m.Late + m.Early))));
        double peakPa = Quantile(beats, b => b.PeakEstimatePa, 0.5);
        Put(Sign.Spike, Math.Log((peakPa - scale.OpenPa) / scale.JumpPa));
        Put(Sign.PeakScatter, (Quantile(beats, b => b.PeakEstimatePa, 0.95) - peakPa) / scale.JumpPa);
    }

    private void Fall(BeatMarks[] marks, BeatScale scale)
    {
        Put(Sign.DeliveryLength, Math.Log(Median(marks, m => m.EndS) / scale.PeriodS));
        Put(Sign.Fullness, Median(marks, m => m.Fullness));
        Put(Sign.FallTop, Median(marks, m => m.FallTopS) / scale.PeriodS);
        Put(Sign.FallFoot, Median(marks, m => m.FallFootS) / scale.PeriodS);
        Put(Sign.Tail, Median(marks, m => m.TailS) / scale.PeriodS);
        Put(Sign.SuctionDepth, Median(marks, m => m.SuctionDepth));
        Put(Sign.SuctionArea, Median(marks, m => m.SuctionS) / scale.PeriodS);
    }

    private void Open(BeatMarks[] marks, BeatScale scale)
    {
        // The marks of single samples stand on the sensor's counts; the mean of many at rest lies between them.
        double restPa = Median(marks, m => m.RestPa);
        double supplyPa = hydraulics.PressurePa(site.Supply.HeadM);
        double closingPa = Median(marks, m => m.ClosingPa) - restPa;
        Put(Sign.MeanHead, (Median(marks, m => m.MeanPa) - restPa) / supplyPa);
        if (closingPa < LeastClosing * supplyPa)
        {
            return;
        }

        Put(Sign.ClosingHead, Math.Log(closingPa / supplyPa));
        Put(Sign.OpenShape, (Median(marks, m => m.HalfPa) - restPa) / closingPa);
        Put(Sign.OpenBeginning, (Median(marks, m => m.QuarterPa) - restPa) / closingPa);
        double spreadPa = Quantile(marks, m => m.ClosingPa, 0.9) - Quantile(marks, m => m.ClosingPa, 0.5);
        Put(Sign.ClosingScatter, Scatter(spreadPa / closingPa));
        double[] byLength = [.. marks.OrderBy(m => m.LengthS).Select(m => m.ClosingPa)];
        int quarter = Math.Max(1, byLength.Length / 4);
        Put(Sign.StretchedSpeed, (byLength[^quarter..].Average() - byLength[..quarter].Average()) / closingPa);
    }

    private Dictionary<Circumstance, double> Circumstances(BeatScale scale, double rateHz, double noisePa) => new()
    {
        [Circumstance.SupplyHead] = Math.Log(site.Supply.HeadM),
        [Circumstance.Lift] = Math.Log(site.Delivery.HeadM / site.Supply.HeadM),
        [Circumstance.PipeLength] = Math.Log(site.DrivePipe.LengthM),
        [Circumstance.PipeBore] = Math.Log(site.DrivePipe.BoreM),
        [Circumstance.SiteWaveSpeed] = Math.Log(hydraulics.WaveSpeedMPerS),
        [Circumstance.Sampling] = Math.Log(rateHz * scale.PeriodS),
        [Circumstance.Noise] = Math.Log((noisePa / scale.JumpPa) + LeastNoise),
    };

    private static double Scatter(double relative) => Math.Log(Math.Max(0, relative) + LeastScatter);

    private void Put(Sign sign, double value)
    {
        if (double.IsFinite(value))
        {
            _signs[sign] = value;
        }
    }

    private static double Median(BeatMarks[] marks, Func<BeatMarks, double> figure) => Quantile(marks, figure, 0.5);

    private static double Quantile(BeatMarks[] marks, Func<BeatMarks, double> figure, double share)
    {
        double[] values = [.. marks.Select(figure)];
        Array.Sort(values);
        return Summaries.Quantile(values, share);
    }

    private static double Quantile(IReadOnlyList<Beat> beats, Func<Beat, double> figure, double share) =>
        Summaries.Quantile(Summaries.Sorted(beats, figure), share);
}
