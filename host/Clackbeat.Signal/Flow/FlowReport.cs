using System.Buffers;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Flow;

/// <summary>Figures with their uncertainties, made of a fitted column and all kept beats.</summary>
internal sealed class FlowReport(
    RamSite site, SiteHydraulics hydraulics, IReadOnlyList<FlowWindow> fitted, WindowStore store, bool coarse, FlowFacts facts)
{
    // How far the closing velocity of real rams strays from the model's (docs/flow-method.md): a floor, and a part that grows with the wave's
    // step against it. Standard uncertainties.
    private const double VelocityFloor = 0.04;
    private const double VelocityWave = 0.3;

    private const double BiasFloorM = 0.01;

    private readonly StandPipeLevel? _stand = StandPipeLevel.Of(site, hydraulics);
    private readonly double _areaM2 = hydraulics.Geometry.BoreM * hydraulics.Geometry.BoreM * Math.PI / 4;
    private readonly double _pascals = Head.ToPressurePa(1, hydraulics.Water.DensityKgPerM3);

    /// <summary>The figures; null when they lead to a flow against its direction.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="uncertainty">Standard uncertainties of the figures.</param>
    /// <param name="wave">Wave speed.</param>
    /// <param name="siteUncertainty">Standard uncertainties of what the site file says.</param>
    /// <param name="supply">The head believed.</param>
    public FlowResult? Of(ColumnFit fit, FlowFigures uncertainty, FoundWaveSpeed wave, SiteUncertainty siteUncertainty, SupplyHead supply)
    {
        var beats = new Dictionary<int, BeatBalance>();
        var ends = new List<double>();
        EachBeat(fit, beats, ends);
        var figures = FlowFigures.Of(beats.Values, fit.Model.BiasM);
        if (!(figures.Delivered > 0 && figures.Waste > 0))
        {
            return null;
        }

        double waveShare = fit.WaveStep / Math.Max(0.1, figures.ClosingVelocity);
        FlowEvidence evidence = EvidenceOf(fit, uncertainty, siteUncertainty, figures, waveShare, ends.Average());
        BucketCalibration buckets = Calibrated(evidence, uncertainty, figures, waveShare, out FlowSummary flow);
        (double q, double w) = (buckets.Delivered.Value, buckets.Waste.Value);
        (double dScale, double wScale) = (q / (figures.Delivered * _areaM2), w / (figures.Waste * _areaM2));
        return new FlowResult
        {
            ExpectedWaveSpeedMPerS = hydraulics.WaveSpeedMPerS,
            Flow = flow,
            Efficiency = Efficiencies(q, w, evidence.OfShare, figures, siteUncertainty, supply),
            DrivePipe = new DrivePipeSummary
            {
                WaveSpeedMPerS = wave.Clear ? new Figure(wave.MPerS, 2 * wave.Uncertainty * wave.MPerS) : null,
                PipePeriodS = 2 * site.DrivePipe.LengthM / wave.MPerS,
                SensorBiasPa = fit.FollowsValve ? fit.Model.BiasM * _pascals : null,
            },
            FoundSupplyHeadM = supply.Found ? new Figure(supply.HeadM, 2 * supply.UncertaintyM) : null,
            SensorBiasUncertaintyPa = !fit.FollowsValve ? null : 2 * _pascals * StandardUncertainty.Combine(uncertainty.BiasM, BiasFloorM),
            Beats = beats.ToDictionary(
                b => b.Key,
                b => new BeatFlow(
                    Closing(beats, b.Key), b.Value.DeliveredM * _areaM2 * dScale, b.Value.WasteM * _areaM2 * wScale)),
            Energy = Split([.. beats.Values], supply),
            Features = !fit.FollowsValve ? null : Features(fit, ends, [.. beats.Values], supply, evidence),
            Findings = facts.Findings,
            Limits = facts.Limits,
        };
    }

    private FlowEvidence EvidenceOf(
        ColumnFit fit, FlowFigures uncertainty, SiteUncertainty siteUncertainty, FlowFigures figures, double waveShare, double end)
    {
        bool floats = fit.FloatingUncertaintyPerM > 0;
        if (floats)
        {
            facts.Limits.Add(Fact.Of("flow-valve-floats"));
        }

        return new FlowEvidence(
            uncertainty.Delivered / figures.Delivered, uncertainty.Waste / figures.Waste, uncertainty.Share / figures.Share, figures.Share, waveShare,
            2 * AnchorMisfit(fit, end) / Math.Max(0.1, figures.ClosingVelocity), siteUncertainty.Bore, coarse,
            floats || !fit.FollowsValve);
    }

    /// <summary>Flows with their uncertainties, calibrated by bucket tests of this record, or by the scale of an earlier one.</summary>
    private BucketCalibration Calibrated(
        in FlowEvidence evidence, FlowFigures uncertainty, FlowFigures figures, double waveShare, out FlowSummary flow)
    {
        FlowScale? scale = FlowScaling.Usable(site, facts.Findings);
        (double delivered, double waste) = (figures.Delivered * _areaM2, figures.Waste * _areaM2);
        var buckets = new BucketCalibration(
            FlowScaling.Scaled(
                new Estimate(delivered, delivered * evidence.Delivered), uncertainty.Delivered * _areaM2, scale?.Delivered, scale?.DeliveredUncertainty ?? 0),
            FlowScaling.Scaled(
                new Estimate(waste, waste * evidence.Waste), uncertainty.Waste * _areaM2, scale?.Waste, scale?.WasteUncertainty ?? 0));
        bool measured = TakeBuckets(buckets);
        double drawnUncertainty = measured || scale is not null
            ? buckets.Delivered.Uncertainty + buckets.Waste.Uncertainty
            : (delivered + waste) * evidence.Drawn;
        double speedUncertainty = StandardUncertainty.Combine(
            uncertainty.ClosingVelocity, figures.ClosingVelocity * (VelocityFloor + (VelocityWave * waveShare)));
        flow = new FlowSummary
        {
            DeliveredM3PerS = buckets.Delivered.ToFigure(),
            WasteM3PerS = buckets.Waste.ToFigure(),
            DrawnM3PerS = new Figure(buckets.Delivered.Value + buckets.Waste.Value, 2 * drawnUncertainty),
            ClosingVelocityMPerS = new Estimate(figures.ClosingVelocity, speedUncertainty).ToFigure(),
        };
        return buckets;
    }

    /// <summary>
    /// A bucket belongs to the record it was filled in. One of another time stands beside the flow: taken into it, it would hide
    /// just the loss that a keeper looks for.
    /// </summary>
    private bool TakeBuckets(BucketCalibration buckets)
    {
        (double delivered, double waste) = (buckets.Delivered.Value, buckets.Waste.Value);
        foreach (BucketTest test in site.BucketTests.Where(t => t.OfThisRecord))
        {
            buckets.Add(test);
        }

        facts.Findings.AddRange(buckets.Disagreements);
        bool measured = site.BucketTests.Any(t => t.OfThisRecord);
        if (measured)
        {
            facts.Findings.Add(FlowScaling.Made(site, buckets.Delivered, delivered, buckets.Waste, waste));
        }

        facts.Findings.AddRange(site.BucketTests.Where(t => !t.OfThisRecord).Select(t =>
            FlowScaling.Compared(t, t.Outlet == BucketOutlet.Delivery ? buckets.Delivered : buckets.Waste)));
        return measured;
    }

    /// <summary>The velocity before the closure that starts a beat was reached in the beat before it.</summary>
    private static double Closing(Dictionary<int, BeatBalance> beats, int index) =>
        beats.TryGetValue(index - 1, out BeatBalance before) ? before.ClosingVelocity : beats[index].ClosingVelocity;

    private EfficiencySummary Efficiencies(
        double q, double w, double shareUncertainty, FlowFigures figures, SiteUncertainty siteUncertainty, SupplyHead supply)
    {
        double h = site.Delivery.HeadM;
        double heads = supply.UncertaintyM / supply.HeadM;
        double dAubuisson = RamEfficiency.DAubuisson(q, w, supply.HeadM, h);
        double rankine = RamEfficiency.Rankine(q, w, supply.HeadM, h);

        // q/w moves more than q/(q+w), by the share that is wasted; Rankine's lift feels the supply head twice.
        double ratioUncertainty = shareUncertainty * (q + w) / w;
        double liftUncertainty = heads * (1 + (supply.HeadM / (h - supply.HeadM)));
        double driveSide = figures.LiftM / supply.HeadM;
        return new EfficiencySummary
        {
            DAubuisson = new Figure(dAubuisson, 2 * dAubuisson * StandardUncertainty.Combine(shareUncertainty, heads)),
            Rankine = new Figure(rankine, 2 * rankine * StandardUncertainty.Combine(ratioUncertainty, liftUncertainty)),
            DriveSide = new Figure(driveSide, 2 * driveSide * StandardUncertainty.Combine(shareUncertainty, heads, siteUncertainty.Gain)),
        };
    }

    private void EachBeat(ColumnFit fit, Dictionary<int, BeatBalance> beats, List<double> ends)
    {
        var known = new Dictionary<int, int>();
        for (int j = 0; j < fitted.Count; j++)
        {
            known[fitted[j].Beat.Index] = j;
        }

        double[] sorted = [.. fit.StartVelocity.Order()];
        var each = new (int Index, BeatBalance Balance, double EndMPerS)[store.Count];
        Parallel.For(0, each.Length, i => each[i] = OfBeat(fit, store.Unpack(i), known, sorted[sorted.Length / 2]));
        foreach ((int index, BeatBalance balance, double endMPerS) in each)
        {
            beats[index] = balance;
            ends.Add(endMPerS);
        }
    }

    private (int Index, BeatBalance Balance, double EndMPerS) OfBeat(ColumnFit fit, FlowWindow kept, Dictionary<int, int> known, double guess)
    {
        bool isFitted = known.TryGetValue(kept.Beat.Index, out int number);
        FlowWindow window = isFitted ? fitted[number] : kept;
        double start = isFitted ? fit.StartVelocity[number] : fit.FitStart(window, guess);
        double[] velocity = ArrayPool<double>.Shared.Rent(window.TimeS.Length);
        Span<double> v = velocity.AsSpan(0, window.TimeS.Length);
        if (!isFitted && _stand is not null)
        {
            ColumnInversion.Run(window.TimeS, window.ColumnHeadM, fit.Model, start, v);
            window = _stand.Swung(window, v);
            start = fit.FitStart(window, start);
        }

        ColumnInversion.Run(window.TimeS, window.ColumnHeadM, fit.Model, start, v);
        (int Index, BeatBalance Balance, double EndMPerS) told = (window.Beat.Index, BeatBalance.Of(window, fit.Model, v), ZeroFlowAnchor.Velocity(window, v));
        ArrayPool<double>.Shared.Return(velocity);
        return told;
    }

    private EnergySplit Split(List<BeatBalance> beats, SupplyHead supply)
    {
        double volume = _pascals * _areaM2 / beats.Count;
        double drawn = volume * supply.HeadM * beats.Sum(b => b.DrawnM);
        double lifted = volume * site.Delivery.HeadM * beats.Sum(b => b.DeliveredM);
        double passed = volume * beats.Sum(b => b.DeliveredHeadM2);
        double waste = volume * beats.Sum(b => b.WasteHeadM2);
        double friction = volume * beats.Sum(b => b.FrictionM2 + (supply.FeedLossM * b.DrawnM));
        return new EnergySplit(
            drawn, lifted, passed - lifted, waste, friction, drawn - passed - waste - friction);
    }

    /// <summary>
    /// How far the two anchors stand apart beyond what both allow [m/s]. The delivered volume grows with the square of the
    /// velocity it starts from, so twice this, over the closing velocity, is what it may be wrong by.
    /// </summary>
    private double AnchorMisfit(ColumnFit fit, double end)
    {
        // Where both valves are seen shut the fit holds to that, and the end of delivery tells no more than when the valve shut.
        double beyond = 2 * fitted.Count(w => w.Shut is not null) > fitted.Count ? 0 : ZeroFlowAnchor.Beyond(end, fit.WaveStep);
        if (beyond == 0)
        {
            return 0;
        }

        facts.Limits.Add(beyond > 0 ? Fact.Of("flow-anchors-disagree") : Fact.Of("flow-runs-back"));
        return Math.Abs(beyond);
    }

    private FlowFeatures Features(ColumnFit fit, List<double> ends, List<BeatBalance> beats, SupplyHead supply, in FlowEvidence evidence)
    {
        double mean = beats.Average(b => b.ClosingVelocity);
        return new FlowFeatures
        {
            ValveConstant = fit.ValveConstant,
            LossFactor = fit.LossFactor,
            VelocityAtDeliveryEnd = ends.Average(),
            ExpectedAtDeliveryEnd = ZeroFlowAnchor.Expected(fit.WaveStep),
            SupplyHeadM = fit.Model.SupplyHeadM + supply.FeedLossM,
            ClosingVelocityScatter = Math.Sqrt(beats.Average(b => (b.ClosingVelocity - mean) * (b.ClosingVelocity - mean))),
            NoisePa = fit.NoiseM * _pascals,
            Evidence = evidence,
        };
    }
}
