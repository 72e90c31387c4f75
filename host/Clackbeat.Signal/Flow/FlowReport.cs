using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Flow;

/// <summary>Figures with their uncertainties, made of a fitted column and all kept beats.</summary>
internal sealed class FlowReport(
    RamSite site, SiteHydraulics hydraulics, List<FlowWindow> fitted, WindowStore store, bool coarse, List<string> limits)
{
    // What the budget can't know: how far real rams stray from the model. Taken from the sweep (docs/flow-method.md):
    // a floor, and a part that grows with the wave's step against the closing velocity. Standard uncertainties.
    private const double ModelFloor = 0.015;
    private const double ModelWave = 0.06;
    private const double ShareFloor = 0.010;
    private const double VelocityFloor = 0.04;
    private const double VelocityWave = 0.3;
    private const double CoarseFactor = 2.5;
    private const double BiasFloorM = 0.01;

    private readonly double _areaM2 = hydraulics.Geometry.BoreM * hydraulics.Geometry.BoreM * Math.PI / 4;
    private readonly double _pascals = Head.ToPressurePa(1, hydraulics.Water.DensityKgPerM3);

    /// <summary>The figures; null when they lead to a flow against its direction.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="spreads">Standard uncertainties in the order of <see cref="FlowFigures.ToArray"/>.</param>
    /// <param name="wave">Wave speed.</param>
    /// <param name="spread">Uncertainties of the site.</param>
    /// <param name="supply">The head believed.</param>
    public FlowResult? Of(ColumnFit fit, double[] spreads, FoundWaveSpeed wave, SiteSpread spread, SupplyHead supply)
    {
        var beats = new Dictionary<int, BeatBalance>();
        var ends = new List<double>();
        EachBeat(fit, beats, ends);
        FlowFigures figures = FlowFigures.Of(beats.Values, fit.Model.BiasM);
        if (!(figures.Delivered > 0 && figures.Waste > 0))
        {
            return null;
        }

        double waveShare = fit.WaveStep / Math.Max(0.1, figures.ClosingVelocity);
        double widen = coarse ? CoarseFactor : 1;
        BucketCalibration buckets = Calibrated(fit, spreads, spread, figures, waveShare, ends.Average(), out FlowSummary flow);
        (double q, double w) = (buckets.Delivered.Value, buckets.Waste.Value);
        double shareSpread = widen * Spreads.Root(spreads[3], figures.Share * (ShareFloor + (0.5 * ModelWave * waveShare)));
        (double dScale, double wScale) = (q / (figures.Delivered * _areaM2), w / (figures.Waste * _areaM2));
        return new FlowResult
        {
            ExpectedWaveSpeedMPerS = hydraulics.WaveSpeedMPerS,
            Flow = flow,
            Efficiency = Efficiencies(q, w, shareSpread / figures.Share, figures, spread, supply),
            DrivePipe = new DrivePipeSummary
            {
                WaveSpeedMPerS = wave.Clear ? new Figure(wave.MPerS, 2 * wave.Spread * wave.MPerS) : null,
                PipePeriodS = 2 * site.DrivePipe.LengthM / wave.MPerS,
                SensorBiasPa = fit.Model.BiasM * _pascals,
            },
            FoundSupplyHeadM = supply.Found ? new Figure(supply.HeadM, 2 * supply.SpreadM) : null,
            SensorBiasUncertaintyPa = 2 * _pascals * Spreads.Root(spreads[5], BiasFloorM),
            Beats = beats.ToDictionary(
                b => b.Key,
                b => new BeatFlow(
                    Closing(beats, b.Key), b.Value.DeliveredM * _areaM2 * dScale, b.Value.WasteM * _areaM2 * wScale)),
            Energy = Split([.. beats.Values]),
            Signs = Signs(fit, ends, [.. beats.Values]),
            Limits = limits,
        };
    }

    /// <summary>Flows with their uncertainties, sharpened by bucket tests where the site has any.</summary>
    private BucketCalibration Calibrated(
        ColumnFit fit, double[] spreads, SiteSpread spread, FlowFigures figures, double waveShare, double end, out FlowSummary flow)
    {
        double speed = Math.Max(0.1, figures.ClosingVelocity);
        double model = ((coarse ? CoarseFactor : 1) * (ModelFloor + (ModelWave * waveShare))) + (2 * Dispute(fit, end) / speed);
        double bore = 2 * spread.Bore;
        double drawn = figures.Delivered + figures.Waste;
        var buckets = new BucketCalibration(
            (figures.Delivered * _areaM2, SpreadOf(figures.Delivered, spreads[0])),
            (figures.Waste * _areaM2, SpreadOf(figures.Waste, spreads[1])));
        foreach (BucketTest test in site.BucketTests)
        {
            buckets.Add(test);
        }

        limits.AddRange(buckets.Disagreements);
        double drawnSpread = site.BucketTests.Count > 0
            ? buckets.Delivered.Spread + buckets.Waste.Spread
            : SpreadOf(drawn, spreads[0] + spreads[1]);
        double speedSpread = Spreads.Root(spreads[2], figures.ClosingVelocity * (VelocityFloor + (VelocityWave * waveShare)));
        flow = new FlowSummary
        {
            DeliveredM3PerS = new Figure(buckets.Delivered.Value, 2 * buckets.Delivered.Spread),
            WasteM3PerS = new Figure(buckets.Waste.Value, 2 * buckets.Waste.Spread),
            DrawnM3PerS = new Figure(buckets.Delivered.Value + buckets.Waste.Value, 2 * drawnSpread),
            ClosingVelocityMPerS = new Figure(figures.ClosingVelocity, 2 * speedSpread),
        };
        return buckets;

        double SpreadOf(double part, double fitted) => _areaM2 * Spreads.Root(fitted, part * model, part * bore);
    }

    /// <summary>The velocity before the closure that starts a beat was reached in the beat before it.</summary>
    private static double Closing(Dictionary<int, BeatBalance> beats, int index) =>
        beats.TryGetValue(index - 1, out BeatBalance before) ? before.ClosingVelocity : beats[index].ClosingVelocity;

    private EfficiencySummary Efficiencies(
        double q, double w, double shareSpread, FlowFigures figures, SiteSpread spread, SupplyHead supply)
    {
        double h = site.Delivery.HeadM;
        double heads = supply.SpreadM / supply.HeadM;
        double dAubuisson = RamEfficiency.DAubuisson(q, w, supply.HeadM, h);
        double rankine = RamEfficiency.Rankine(q, w, supply.HeadM, h);

        // q/w moves more than q/(q+w), by the share that is wasted; Rankine's lift feels the supply head twice.
        double ratioSpread = shareSpread * (q + w) / w;
        double liftSpread = heads * (1 + (supply.HeadM / (h - supply.HeadM)));
        double driveSide = figures.LiftM / supply.HeadM;
        return new EfficiencySummary
        {
            DAubuisson = new Figure(dAubuisson, 2 * dAubuisson * Spreads.Root(shareSpread, heads)),
            Rankine = new Figure(rankine, 2 * rankine * Spreads.Root(ratioSpread, liftSpread)),
            DriveSide = new Figure(driveSide, 2 * driveSide * Spreads.Root(shareSpread, heads, spread.Gain)),
        };
    }

    private void EachBeat(ColumnFit fit, Dictionary<int, BeatBalance> beats, List<double> ends)
    {
        var known = new Dictionary<int, double>();
        for (int j = 0; j < fitted.Count; j++)
        {
            known[fitted[j].Beat.Index] = fit.StartVelocity[j];
        }

        double[] sorted = [.. fit.StartVelocity.Order()];
        double[] velocity = new double[store.Longest];
        foreach (FlowWindow window in store.Windows)
        {
            double start = known.TryGetValue(window.Beat.Index, out double own) ? own : fit.FitStart(window, sorted[sorted.Length / 2]);
            Span<double> v = velocity.AsSpan(0, window.TimeS.Length);
            ColumnInversion.Run(window.TimeS, window.HeadM, fit.Model, start, v);
            beats[window.Beat.Index] = BeatBalance.Of(window, fit.Model, v);
            ends.Add(ZeroFlowAnchor.Velocity(window, v));
        }
    }

    private EnergySplit Split(List<BeatBalance> beats)
    {
        double volume = _pascals * _areaM2 / beats.Count;
        double drawn = volume * site.Supply.HeadM * beats.Sum(b => b.DrawnM);
        double lifted = volume * site.Delivery.HeadM * beats.Sum(b => b.DeliveredM);
        double passed = volume * beats.Sum(b => b.DeliveredHeadM2);
        double waste = volume * beats.Sum(b => b.WasteHeadM2);
        double friction = volume * beats.Sum(b => b.FrictionM2);
        return new EnergySplit(
            drawn, lifted, passed - lifted, waste, friction, drawn - passed - waste - friction);
    }

    /// <summary>
    /// How far the two anchors stand apart beyond what both allow [m/s]. The delivered volume grows with the square of the
    /// velocity it starts from, so twice this, over the closing velocity, is what it may be wrong by.
    /// </summary>
    private double Dispute(ColumnFit fit, double end)
    {
        double beyond = ZeroFlowAnchor.Beyond(end, fit.WaveStep);
        if (beyond == 0)
        {
            return 0;
        }

        limits.Add(beyond > 0
            ? "The flow before the closure and the end of delivery don't fit together; the flows are given with a wider uncertainty. "
                + "A supply level far below the site file's, a restless waste valve or a wrong pipe length look like this."
            : "Water runs back for long before the delivery valve shuts; the flows are given with a wider uncertainty.");
        return Math.Abs(beyond);
    }

    private FlowSigns Signs(ColumnFit fit, List<double> ends, List<BeatBalance> beats)
    {
        double mean = beats.Average(b => b.ClosingVelocity);
        return new FlowSigns
        {
            ValveConstant = fit.ValveConstant,
            LossFactor = fit.LossFactor,
            VelocityAtDeliveryEnd = ends.Average(),
            ExpectedAtDeliveryEnd = ZeroFlowAnchor.Expected(fit.WaveStep),
            SupplyHeadM = fit.Model.SupplyHeadM,
            ClosingVelocityScatter = Math.Sqrt(beats.Average(b => (b.ClosingVelocity - mean) * (b.ClosingVelocity - mean))),
            NoisePa = fit.NoiseM * _pascals,
        };
    }
}
