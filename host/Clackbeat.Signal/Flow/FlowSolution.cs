using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Flow;

/// <summary>One record's way from kept beats to figures.</summary>
internal sealed class FlowSolution(
    RamSite site, SiteHydraulics hydraulics, List<FlowWindow> windows, WindowStore store, double samplesPerPeriod, List<string> limits)
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

    private const double GoodPerPeriod = 6;

    // How far a drought may take the level down, as a standard deviation over the site's head.
    private const double LooseSupply = 0.3;
    private const double BelievedAt = 3;

    // The law's spread is set for the flows and reads too narrow for the head: without this the site's true head was
    // disbelieved in 7 of 96 rams of the sweep (docs/flow-method.md), with it in none.
    private const double FoundHeadFactor = 2;

    private readonly bool _coarse = samplesPerPeriod < GoodPerPeriod;
    private readonly double _areaM2 = hydraulics.Geometry.BoreM * hydraulics.Geometry.BoreM * Math.PI / 4;

    /// <summary>The result, or null when the record can't determine it; the limits then say why.</summary>
    public FlowResult? Solve(int steps)
    {
        SiteSpread spread = SiteSpread.Of(site, hydraulics.WaveSpeedSource);
        ColumnModel column = SiteSpread.Column(site, hydraulics);
        double noiseM = OpenNoise.Of(windows);
        column = column with { BiasM = RoughBiasM() };
        FoundWaveSpeed wave = _coarse
            ? new FoundWaveSpeed(column.WaveSpeedMPerS, spread.WaveSpeed, false)
            : WaveSpeedFinder.Find(windows, column, spread.WaveSpeed);
        SayWave(wave);
        column = column with { WaveSpeedMPerS = wave.MPerS };
        var fit = new ColumnFit(windows, column, spread.SupplyM, noiseM);
        if (!fit.Solve(steps) || !Sound(fit))
        {
            limits.Add(
                "Flow is withheld: the open phases of the beats don't follow the law of an open valve, so nothing fixes the "
                + "velocity. Check the site file's lengths and heads, and that the sensor sits on the ram's body.");
            return null;
        }

        fit = FromOpening(fit, column, spread, steps);
        (fit, spread) = WithFreeSupply(fit, column, spread, steps);
        double[] spreads = UncertaintyBudget.Of(fit, windows, column, spread, wave.Spread);
        if (Result(fit, spreads, wave, spread, noiseM) is { } result)
        {
            return result;
        }

        limits.Add("Flow is withheld: the record leads to a flow against its direction, so something in it or in the site file is wrong.");
        return null;
    }

    /// <summary>Fits again with the law of the open valve from as early on as this ram's valve follows it.</summary>
    private ColumnFit FromOpening(ColumnFit fit, ColumnModel column, SiteSpread spread, int steps)
    {
        double openedShare = OpeningFinder.Find(fit, windows);
        if (openedShare >= fit.OpenedShare)
        {
            return fit;
        }

        var sooner = new ColumnFit(windows, column, spread.SupplyM, fit.NoiseM, openedShare);
        sooner.StartFrom(fit);
        return sooner.Solve(steps) && Sound(sooner) ? sooner : fit;
    }

    /// <summary>
    /// In a drought the level at the intake sinks, and a site file may be wrong: then the record itself has to tell the
    /// head. It is believed when, freed, it lies further from the site's than both uncertainties together explain.
    /// </summary>
    private (ColumnFit Fit, SiteSpread Spread) WithFreeSupply(
        ColumnFit fit, ColumnModel column, SiteSpread spread, int steps)
    {
        SiteSpread wide = spread with { SupplyM = LooseSupply * site.Supply.HeadM };
        var free = new ColumnFit(windows, column, wide.SupplyM, fit.NoiseM, fit.OpenedShare);
        free.StartFrom(fit);
        if (!free.Solve(2 * steps) || !Sound(free))
        {
            return (fit, spread);
        }

        double foundSpreadM = FoundHeadFactor * Math.Sqrt(free.Covariance[ColumnFit.Supply, ColumnFit.Supply]);
        double apartM = free.Model.SupplyHeadM - site.Supply.HeadM;
        if (Math.Abs(apartM) < BelievedAt * Root(foundSpreadM, spread.SupplyM, 0))
        {
            return (fit, spread);
        }

        limits.Add(FormattableString.Invariant(
            $"The record fits a supply level {free.Model.SupplyHeadM:0.00} m (± {2 * foundSpreadM:0.00} m) above the waste valve, ")
            + FormattableString.Invariant($"not the site file's {site.Supply.HeadM:0.00} m; flows and efficiencies are worked out with it. ")
            + "Look at the level in the intake and at its strainer, and check the heads in the site file.");
        return (free, wide with { FoundSupplyM = foundSpreadM });
    }

    private FlowResult? Result(ColumnFit fit, double[] spreads, FoundWaveSpeed wave, SiteSpread site1, double noiseM)
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
        double widen = _coarse ? CoarseFactor : 1;
        double dispute = Dispute(fit, ends.Average());
        double flowModel = (widen * (ModelFloor + (ModelWave * waveShare))) + (2 * dispute / Math.Max(0.1, figures.ClosingVelocity));
        double bore = 2 * site1.Bore;
        var buckets = new BucketCalibration(
            (figures.Delivered * _areaM2, _areaM2 * Root(spreads[0], figures.Delivered * flowModel, figures.Delivered * bore)),
            (figures.Waste * _areaM2, _areaM2 * Root(spreads[1], figures.Waste * flowModel, figures.Waste * bore)));
        foreach (BucketTest test in site.BucketTests)
        {
            buckets.Add(test);
        }

        limits.AddRange(buckets.Disagreements);
        (double q, double w) = (buckets.Delivered.Value, buckets.Waste.Value);
        double drawnSpread = site.BucketTests.Count > 0
            ? buckets.Delivered.Spread + buckets.Waste.Spread
            : _areaM2 * Root(spreads[0] + spreads[1], (figures.Delivered + figures.Waste) * flowModel, (figures.Delivered + figures.Waste) * bore);
        double shareSpread = widen * Root(spreads[3], figures.Share * (ShareFloor + (0.5 * ModelWave * waveShare)), 0);
        double speedSpread = Root(spreads[2], figures.ClosingVelocity * (VelocityFloor + (VelocityWave * waveShare)), 0);
        (double dScale, double wScale) = (q / (figures.Delivered * _areaM2), w / (figures.Waste * _areaM2));
        double pascals = Head.ToPressurePa(1, hydraulics.Water.DensityKgPerM3);
        return new FlowResult
        {
            ExpectedWaveSpeedMPerS = hydraulics.WaveSpeedMPerS,
            Flow = new FlowSummary
            {
                DeliveredM3PerS = new Figure(q, 2 * buckets.Delivered.Spread),
                WasteM3PerS = new Figure(w, 2 * buckets.Waste.Spread),
                DrawnM3PerS = new Figure(q + w, 2 * drawnSpread),
                ClosingVelocityMPerS = new Figure(figures.ClosingVelocity, 2 * speedSpread),
            },
            Efficiency = Efficiencies(q, w, shareSpread / figures.Share, figures, site1, fit.Model.SupplyHeadM),
            DrivePipe = new DrivePipeSummary
            {
                WaveSpeedMPerS = wave.Clear ? new Figure(wave.MPerS, 2 * wave.Spread * wave.MPerS) : null,
                PipePeriodS = 2 * site.DrivePipe.LengthM / wave.MPerS,
                SensorBiasPa = fit.Model.BiasM * pascals,
            },
            FoundSupplyHeadM = site1.FoundSupplyM is { } foundM ? new Figure(fit.Model.SupplyHeadM, 2 * foundM) : null,
            SensorBiasUncertaintyPa = 2 * pascals * Root(spreads[5], BiasFloorM, 0),
            Beats = beats.ToDictionary(
                b => b.Key,
                b => new BeatFlow(
                    Closing(beats, b.Key), b.Value.DeliveredM * _areaM2 * dScale, b.Value.WasteM * _areaM2 * wScale)),
            Energy = Split([.. beats.Values], pascals),
            Signs = Signs(fit, ends, [.. beats.Values], noiseM * pascals),
            Limits = limits,
        };
    }

    /// <summary>The velocity before the closure that starts a beat was reached in the beat before it.</summary>
    private static double Closing(Dictionary<int, BeatBalance> beats, int index) =>
        beats.TryGetValue(index - 1, out BeatBalance before) ? before.ClosingVelocity : beats[index].ClosingVelocity;

    private EfficiencySummary Efficiencies(
        double q, double w, double shareSpread, FlowFigures figures, SiteSpread spread, double supplyFoundM)
    {
        double supply = spread.FoundSupplyM is null ? site.Supply.HeadM : supplyFoundM;
        double h = site.Delivery.HeadM;
        double heads = (spread.FoundSupplyM ?? spread.SupplyM) / supply;
        double dAubuisson = RamEfficiency.DAubuisson(q, w, supply, h);
        double rankine = RamEfficiency.Rankine(q, w, supply, h);

        // q/w moves more than q/(q+w), by the share that is wasted; Rankine's lift feels the supply head twice.
        double ratioSpread = shareSpread * (q + w) / w;
        double liftSpread = heads * (1 + (supply / (h - supply)));
        double driveSide = figures.LiftM / supply;
        return new EfficiencySummary
        {
            DAubuisson = new Figure(dAubuisson, 2 * dAubuisson * Root(shareSpread, heads, 0)),
            Rankine = new Figure(rankine, 2 * rankine * Root(ratioSpread, liftSpread, 0)),
            DriveSide = new Figure(driveSide, 2 * driveSide * Root(shareSpread, heads, spread.Gain)),
        };
    }

    private void EachBeat(ColumnFit fit, Dictionary<int, BeatBalance> beats, List<double> ends)
    {
        var fitted = new Dictionary<FlowWindow, double>();
        for (int j = 0; j < windows.Count; j++)
        {
            fitted[windows[j]] = fit.StartVelocity[j];
        }

        double[] sorted = [.. fit.StartVelocity.Order()];
        double[] velocity = new double[store.Windows.Max(w => w.TimeS.Length)];
        foreach (FlowWindow window in store.Windows)
        {
            double start = fitted.TryGetValue(window, out double known) ? known : fit.FitStart(window, sorted[sorted.Length / 2]);
            Span<double> v = velocity.AsSpan(0, window.TimeS.Length);
            ColumnInversion.Run(window.TimeS, window.HeadM, fit.Model, start, v);
            beats[window.Beat.Index] = BeatBalance.Of(window, fit.Model, v);
            ends.Add(ZeroFlowAnchor.Velocity(window, v));
        }
    }

    private EnergySplit Split(List<BeatBalance> beats, double pascals)
    {
        double volume = pascals * _areaM2 / beats.Count;
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

    private static FlowSigns Signs(ColumnFit fit, List<double> ends, List<BeatBalance> beats, double noisePa)
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
            NoisePa = noisePa,
        };
    }

    private void SayWave(FoundWaveSpeed wave)
    {
        if (!wave.Clear)
        {
            limits.Add(
                _coarse
                    ? "The pipe period holds fewer than six samples: wave speed can't be measured, and the flows are weaker than their method allows."
                    : $"The record shows no clear echo of the drive pipe; {wave.MPerS:0} m/s from the site file stands in for the wave speed.");
        }
        else if (wave.MPerS < 0.8 * hydraulics.WaveSpeedMPerS)
        {
            limits.Add(
                $"The measured wave speed, {wave.MPerS:0} m/s, lies far below the {hydraulics.WaveSpeedMPerS:0} m/s of the "
                + "pipe: there is air in the drive pipe, or its material or wall differ from the site file.");
        }
    }

    private static bool Sound(ColumnFit fit) =>
        fit.ValveConstant is > 1e-3 and < 20
        && fit.LossFactor is > 0.05 and < 5
        && fit.StartVelocity.All(v => Math.Abs(v) < 5);

    private double RoughBiasM()
    {
        double[] heads = [.. windows.Select(w => w.MedianHeadM(
            w.Beat.OpenStartS + (0.05 * w.Beat.OpenLengthS), w.Beat.OpenStartS + (0.15 * w.Beat.OpenLengthS))).Order()];
        return heads[heads.Length / 2];
    }

    private static double Root(double a, double b, double c) => Math.Sqrt((a * a) + (b * b) + (c * c));
}
