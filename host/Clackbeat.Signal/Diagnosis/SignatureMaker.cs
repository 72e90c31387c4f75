using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>Measures the features of a record from its beats and a bounded number of their curves.</summary>
internal sealed class SignatureMaker(RamSite site, SiteHydraulics hydraulics)
{
    internal const int LeastBeats = 5;

    // What a scatter of nothing counts as, so that its logarithm stays finite.
    private const double LeastScatter = 0.002;

    // An open valve that shows less than this of the supply head shows nothing a sensor could tell.
    private const double LeastClosing = 0.005;

    // Noise under a ten-thousandth of the jump is none.
    private const double LeastNoise = 1e-4;

    private readonly Dictionary<Feature, double> _signs = [];

    /// <summary>The signature, or null when the record has too few beats to speak for the ram.</summary>
    /// <param name="beats">Whole beats in order.</param>
    /// <param name="curves">Some of them sample by sample, time 0 at closure.</param>
    /// <param name="rateHz">Samples a second.</param>
    /// <param name="noisePa">Standard deviation of the sensor's noise [Pa].</param>
    /// <param name="column">What the flow's fit says of the moving water; null when the flows were withheld.</param>
    public Signature? Make(IReadOnlyList<Beat> beats, IReadOnlyList<TraceCurve> curves, double rateHz, double noisePa, ColumnFeatures? column)
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
        Set(Feature.RecoilLength, Math.Log(Quantile(beats, b => b.RecoilLengthS, 0.5) / scale.PeriodS));
        Open(marks, scale);
        if (EchoFinder.Find(typical, scale.PeriodS, intervalS) is { } echo)
        {
            Set(Feature.Echo, Math.Log(scale.PeriodS / echo.PeriodS));
            Set(Feature.EchoAway, echo.SiteShort);
        }

        double endS = Median(marks, m => m.EndS);
        foreach ((Feature feature, double value) in column?.Measure(typical, endS, openPa + Median(marks, m => m.RestPa), scale.JumpPa) ?? [])
        {
            Set(feature, value);
        }

        return new Signature
        {
            Features = _signs,
            Covariates = Covariates(scale, rateHz, noisePa),
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
        Set(Feature.Interval, Math.Log(drive * At(0.5)));
        Set(Feature.OpenLength, Math.Log(drive * (At(0.5) - Median(marks, m => m.EndS))));
        Set(Feature.IntervalScatter, Scatter((At(0.75) - At(0.25)) / At(0.5)));
        Set(Feature.LongBeats, Scatter((At(0.95) - At(0.5)) / At(0.5)));
        Set(Feature.ShortBeats, Scatter((At(0.5) - At(0.05)) / At(0.5)));
        Set(Feature.EndScatter, (Quantile(marks, m => m.EndS, 0.9) - Quantile(marks, m => m.EndS, 0.1)) / scale.PeriodS);
    }

    private void Plateau(IReadOnlyList<Beat> beats, BeatMarks[] marks, BeatScale scale)
    {
        Set(Feature.Plateau, Math.Log(scale.JumpPa / hydraulics.PressurePa(site.Delivery.HeadM)));
        Set(Feature.Slope, Median(marks, m => m.Late - m.Early));
        Set(Feature.Bend, Median(marks, m => m.Middle - (0.5 * (m.Late + m.Early))));
        double peakPa = Quantile(beats, b => b.PeakEstimatePa, 0.5);
        Set(Feature.Spike, Math.Log((peakPa - scale.OpenPa) / scale.JumpPa));
        if (marks.Where(m => m.RiseS is not null).ToArray() is { Length: >= LeastBeats } seen)
        {
            Set(Feature.KnockRise, Median(seen, m => m.RiseS!.Value) / scale.PeriodS);
        }

        Set(Feature.PeakScatter, (Quantile(beats, b => b.PeakEstimatePa, 0.95) - peakPa) / scale.JumpPa);
    }

    private void Fall(BeatMarks[] marks, BeatScale scale)
    {
        Set(Feature.DeliveryLength, Math.Log(Median(marks, m => m.EndS) / scale.PeriodS));
        Set(Feature.Fullness, Median(marks, m => m.Fullness));
        Set(Feature.FallTop, Median(marks, m => m.FallTopS) / scale.PeriodS);
        Set(Feature.FallFoot, Median(marks, m => m.FallFootS) / scale.PeriodS);
        Set(Feature.Tail, Median(marks, m => m.TailS) / scale.PeriodS);
        Set(Feature.SuctionDepth, Median(marks, m => m.SuctionDepth));
        Set(Feature.SuctionArea, Median(marks, m => m.SuctionS) / scale.PeriodS);
    }

    private void Open(BeatMarks[] marks, BeatScale scale)
    {
        // The marks of single samples stand on the sensor's counts; the mean of many at rest lies between them.
        double restPa = Median(marks, m => m.RestPa);
        double supplyPa = hydraulics.PressurePa(site.Supply.HeadM);
        double closingPa = Median(marks, m => m.ClosingPa) - restPa;
        Set(Feature.MeanHead, (Median(marks, m => m.MeanPa) - restPa) / supplyPa);
        if (closingPa < LeastClosing * supplyPa)
        {
            return;
        }

        Set(Feature.ClosingHead, Math.Log(closingPa / supplyPa));
        Set(Feature.OpenShape, (Median(marks, m => m.HalfPa) - restPa) / closingPa);
        Set(Feature.OpenBeginning, (Median(marks, m => m.QuarterPa) - restPa) / closingPa);
        double rangePa = Quantile(marks, m => m.ClosingPa, 0.9) - Quantile(marks, m => m.ClosingPa, 0.5);
        Set(Feature.ClosingScatter, Scatter(rangePa / closingPa));
        double[] byLength = [.. marks.OrderBy(m => m.LengthS).Select(m => m.ClosingPa)];
        int quarter = Math.Max(1, byLength.Length / 4);
        Set(Feature.StretchedSpeed, (byLength[^quarter..].Average() - byLength[..quarter].Average()) / closingPa);
    }

    private Dictionary<Covariate, double> Covariates(BeatScale scale, double rateHz, double noisePa) => new()
    {
        [Covariate.SupplyHead] = Math.Log(site.Supply.HeadM),
        [Covariate.Lift] = Math.Log(site.Delivery.HeadM / site.Supply.HeadM),
        [Covariate.PipeLength] = Math.Log(site.DrivePipe.LengthM),
        [Covariate.PipeBore] = Math.Log(site.DrivePipe.BoreM),
        [Covariate.SiteWaveSpeed] = Math.Log(hydraulics.WaveSpeedMPerS),
        [Covariate.Sampling] = Math.Log(rateHz * scale.PeriodS),
        [Covariate.Noise] = Math.Log((noisePa / scale.JumpPa) + LeastNoise),
    };

    private static double Scatter(double relative) => Math.Log(Math.Max(0, relative) + LeastScatter);

    private void Set(Feature feature, double value)
    {
        if (double.IsFinite(value))
        {
            _signs[feature] = value;
        }
    }

    private static double Median(BeatMarks[] marks, Func<BeatMarks, double> figure) => Quantile(marks, figure, 0.5);

    private static double Quantile(BeatMarks[] marks, Func<BeatMarks, double> figure, double share)
    {
        double[] values = [.. marks.Select(figure).Order()];
        return Summaries.Quantile(values, share);
    }

    private static double Quantile(IReadOnlyList<Beat> beats, Func<Beat, double> figure, double share) =>
        Summaries.Quantile(Summaries.Sorted(beats, figure), share);
}
