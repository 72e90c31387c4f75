using Clackbeat.Signal.Figures;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Flow;

/// <summary>One record's way from kept beats to a fitted column; <see cref="FlowReport"/> makes the figures of it.</summary>
internal sealed class FlowSolution(
    RamSite site, SiteHydraulics hydraulics, IReadOnlyList<FlowWindow> windows, WindowStore store, Sampling sampling, FlowFacts facts)
{
    // A strainer that is nearly blocked; beyond it hardly a ram beats.
    private const double MostLosses = 20;

    // Standard uncertainty of c of a floating valve times the supply head. At 1 the valve snaps, at c h = 1/3, under a third of the supply
    // head (judgement: most open valves shut under a fifth of it or more).
    private const double FloatingOverHead = 1;

    // On 45 traces of an independent model, all of valves with a stop, one number more took away 9.5 at most wherever a sunken supply
    // didn't explain it as well. On 71 records of drawn rams of the choosing set with such a valve it was never believed.
    private const double FloatingEvidence = 12;

    // On 79 records of drawn rams a false wave speed left 45 to 56 more over than the site's, and where the site's was wrong it did so by 10 or
    // more; so much either way is no chance.
    private const double WaveEvidence = 12;

    // Each round moves the beats' impulses a little less; after three nothing moves.
    private const int Rounds = 3;

    private readonly bool _coarse = sampling.IsCoarse;
    private readonly StandPipeLevel? _stand = StandPipeLevel.Of(site, hydraulics);
    private double _feedLossM;

    /// <summary>Whether the waste valve floats, by the site file; null where it doesn't say.</summary>
    private bool? Floats => site.WasteValve.Kind is { } kind ? kind is WasteValveKind.Flap or WasteValveKind.SpringPlug : null;

    /// <summary>The result, or null when the record can't determine it; the facts then say why.</summary>
    public FlowResult? Solve(int steps)
    {
        var siteUncertainty = SiteUncertainty.Of(site, hydraulics.WaveSpeedSource);
        ColumnModel column = SiteColumn.Of(site, hydraulics);
        double noiseM = OpenNoise.Of(windows);
        column = column with { BiasM = FirstGuess.BiasM(windows) };
        (column, siteUncertainty) = BehindStandPipe(
            column, siteUncertainty, column, FirstGuess.Starts(windows, column, new double[windows.Max(w => w.TimeS.Length)]).Starts);
        FoundWaveSpeed wave = _coarse
            ? new FoundWaveSpeed(column.WaveSpeedMPerS, siteUncertainty.WaveSpeed, false)
            : OfRivals(WaveSpeedFinder.Find(windows, column, siteUncertainty.WaveSpeed), column, siteUncertainty, noiseM, steps);
        SayWave(wave);
        column = column with { WaveSpeedMPerS = 2 * column.LengthM / sampling.FollowedPeriodS(2 * column.LengthM / wave.MPerS) };
        ColumnFit? first = MakeWhole(column, siteUncertainty, noiseM, steps);
        return OfValve(first, column, siteUncertainty, noiseM, steps) is { } fit
            ? ByValve(fit, column, siteUncertainty, wave, steps) ?? ByBalance(column, siteUncertainty, wave, noiseM, steps, Fact.Of("flow-withheld-backwards"))
            : ByBalance(column, siteUncertainty, wave, noiseM, steps, Fact.Of("flow-withheld-no-open-law"));
    }

    /// <summary>The result by the law of the open valve; null where it leads to a flow against its direction.</summary>
    private FlowResult? ByValve(ColumnFit fit, ColumnModel column, SiteUncertainty siteUncertainty, FoundWaveSpeed wave, int steps)
    {
        if (_stand is not null)
        {
            (column, siteUncertainty) = BehindStandPipe(column, siteUncertainty, fit.Model, fit.StartVelocity);
            fit = Fitted(
                new ColumnFit(windows, column, siteUncertainty.SupplyM, fit.NoiseM, floatingUncertaintyPerM: fit.FloatingUncertaintyPerM), fit, steps) ?? fit;
        }

        fit = FromOpening(fit, column, siteUncertainty, steps);
        (fit, SupplyHead supply) = WithFreeSupply(fit, column, siteUncertainty, steps);
        FlowResult? result = Reported(fit, column, siteUncertainty, wave, supply);
        if (result is not null && supply.Found)
        {
            facts.Findings.Add(supply.Told(site.Supply.HeadM));
        }

        return result;
    }

    /// <summary>
    /// The result without a law of the open valve: nothing flows at the end of a delivery, and each beat closes as the last did. What such a fit
    /// says of valve, zero and supply is not used.
    /// </summary>
    /// <param name="column">The column.</param>
    /// <param name="siteUncertainty">What the site file leaves open.</param>
    /// <param name="wave">The wave speed.</param>
    /// <param name="noiseM">Noise of the heads [m].</param>
    /// <param name="steps">Steps of a fit.</param>
    /// <param name="why">Why the law of the valve gives nothing.</param>
    private FlowResult? ByBalance(
        ColumnModel column, SiteUncertainty siteUncertainty, FoundWaveSpeed wave, double noiseM, int steps, Fact why)
    {
        int told = facts.Limits.Count;
        ColumnFit? fit = Fitted(new ColumnFit(windows, column, siteUncertainty.SupplyM, noiseM, followsValve: false), null, steps);
        FlowResult? result = fit is null
            ? null
            : Reported(fit, column, siteUncertainty, wave, SupplyHead.Site(site.Supply.HeadM, siteUncertainty, _feedLossM));
        if (result is null || IsNoFigure(result.Flow.DeliveredM3PerS))
        {
            facts.Limits.RemoveRange(told, facts.Limits.Count - told);
            facts.Limits.Add(why);
            return null;
        }

        facts.Limits.Add(Fact.Of("flow-by-balance"));
        return result;
    }

    // With a ± as large as itself the flow may as well be nothing.
    private static bool IsNoFigure(Figure? flow) => flow is not { } f || f.U >= f.Value;

    private FlowResult? Reported(
        ColumnFit fit, ColumnModel column, SiteUncertainty siteUncertainty, FoundWaveSpeed wave, SupplyHead supply) =>
        new FlowReport(site, hydraulics, windows, store, _coarse, facts)
            .Of(fit, UncertaintyBudget.Of(fit, windows, column, siteUncertainty, wave.Uncertainty), wave, siteUncertainty, supply);

    /// <summary>
    /// A wave speed found far from the site's, and the site's: the whole fit, which knows the open valve's law and when nothing flows, must
    /// not leave much more over with the one that is found. Echoes alone take the second knock of a valve that shuts late for a longer pipe.
    /// </summary>
    private FoundWaveSpeed OfRivals(
        FoundWaveSpeed found, ColumnModel column, SiteUncertainty siteUncertainty, double noiseM, int steps)
    {
        if (!found.Clear || Math.Abs(Math.Log(found.MPerS / column.WaveSpeedMPerS)) < WaveSpeedFinder.Near)
        {
            return found;
        }

        ColumnFit? Fit(double waveSpeedMPerS) => Fitted(
            new ColumnFit(windows, column with { WaveSpeedMPerS = waveSpeedMPerS }, siteUncertainty.SupplyM, noiseM), null, steps);
        return Fit(column.WaveSpeedMPerS) is { } sites && !(Fit(found.MPerS)?.Misfit < sites.Misfit + WaveEvidence)
            ? new FoundWaveSpeed(column.WaveSpeedMPerS, siteUncertainty.WaveSpeed, false)
            : found;
    }

    /// <summary>
    /// The column under the mean level of a stand pipe, and with it each beat's swing of that level, worked out from the velocities of a
    /// first guess or of a fit. Without a stand pipe nothing changes.
    /// </summary>
    private (ColumnModel Column, SiteUncertainty Uncertainty) BehindStandPipe(
        ColumnModel column, SiteUncertainty siteUncertainty, ColumnModel model, double[] starts)
    {
        if (_stand is null)
        {
            return (column, siteUncertainty);
        }

        double[] velocity = new double[windows.Max(w => w.TimeS.Length)];
        var swung = new FlowWindow[windows.Count];
        (double drawn, double seconds) = (0, 0);
        for (int j = 0; j < swung.Length; j++)
        {
            Span<double> v = velocity.AsSpan(0, windows[j].TimeS.Length);
            ColumnInversion.Run(windows[j].TimeS, windows[j].ColumnHeadM, model, starts[j], v);
            var balance = BeatBalance.Of(windows[j], model, v);
            (drawn, seconds) = (drawn + balance.DrawnM, seconds + balance.IntervalS);
            swung[j] = _stand.Swung(windows[j], v);
        }

        windows = swung;
        _feedLossM = _stand.LossM(drawn / seconds);
        double uncertaintyM = StandardUncertainty.Combine(
            SiteUncertainty.Of(site, hydraulics.WaveSpeedSource).SupplyM, StandPipeLevel.LossUncertaintyM(_feedLossM));
        return (column with { SupplyHeadM = site.Supply.HeadM - _feedLossM }, siteUncertainty with { SupplyM = uncertaintyM });
    }

    /// <summary>Gives the beats the impulse that slow samples miss.</summary>
    /// <returns>The fit of the beats as they then are; null where there is none, or they were changed after the last one.</returns>
    private ColumnFit? MakeWhole(ColumnModel column, SiteUncertainty siteUncertainty, double noiseM, int steps)
    {
        double floating = Floats is true ? FloatingOverHead / column.SupplyHeadM : 0;
        for (int round = 0; round < Rounds; round++)
        {
            if (Fitted(new ColumnFit(windows, column, siteUncertainty.SupplyM, noiseM, floatingUncertaintyPerM: floating), null, steps) is not { } fit)
            {
                return null;
            }

            IReadOnlyList<FlowWindow> whole = MissedImpulse.GivenBack(fit, windows, sampling.StepS);
            if (ReferenceEquals(whole, windows))
            {
                return fit;
            }

            windows = whole;
        }

        return null;
    }

    /// <summary>
    /// The first fit, by the law of the valve that the site names. Where it names none, a valve that floats is believed when its one
    /// number more takes away more of the misfit than <see cref="FloatingEvidence"/>.
    /// </summary>
    /// <param name="first">A fit of these beats by the law that the site names, or by that of a stop; null for none yet.</param>
    /// <param name="column">The column.</param>
    /// <param name="siteUncertainty">What the site file leaves open.</param>
    /// <param name="noiseM">Noise of the heads [m].</param>
    /// <param name="steps">Steps of a fit.</param>
    private ColumnFit? OfValve(ColumnFit? first, ColumnModel column, SiteUncertainty siteUncertainty, double noiseM, int steps)
    {
        ColumnFit? stopped = Floats is true ? null : first ?? Fitted(new ColumnFit(windows, column, siteUncertainty.SupplyM, noiseM), null, steps);
        ColumnFit? floating = Floats is false
            ? null
            : Fitted(
                new ColumnFit(
                    windows, column, siteUncertainty.SupplyM, noiseM, floatingUncertaintyPerM: FloatingOverHead / column.SupplyHeadM),
                stopped, 2 * steps);
        if (stopped is null || floating is null || stopped.Misfit - floating.Misfit < FloatingEvidence)
        {
            return stopped ?? floating;
        }

        // A sunken supply bends the law as well, and is the simpler explanation where it does so as well.
        ColumnFit? sunken = Fitted(
            new ColumnFit(windows, column, SupplyHead.LooseUncertaintyM(site.Supply.HeadM), noiseM), stopped, steps);
        if (sunken is not null && sunken.Misfit - floating.Misfit < FloatingEvidence)
        {
            return stopped;
        }

        facts.Findings.Add(Fact.Of("waste-valve-floats"));
        return floating;
    }

    /// <summary>A fit solved from where another ended; null when the data don't determine it or it makes no sense.</summary>
    private static ColumnFit? Fitted(ColumnFit fit, ColumnFit? from, int steps)
    {
        if (from is not null)
        {
            fit.StartFrom(from);
        }

        return fit.Solve(steps) && Sound(fit) ? fit : null;
    }

    /// <summary>Fits again with the law of the open valve from as early on as this ram's valve follows it.</summary>
    private ColumnFit FromOpening(ColumnFit fit, ColumnModel column, SiteUncertainty siteUncertainty, int steps)
    {
        double openedShare = OpeningFinder.Find(fit, windows);
        if (openedShare >= fit.OpenedShare)
        {
            return fit;
        }

        var sooner = new ColumnFit(windows, column, siteUncertainty.SupplyM, fit.NoiseM, openedShare, fit.FloatingUncertaintyPerM);
        return Fitted(sooner, fit, steps) ?? fit;
    }

    private (ColumnFit Fit, SupplyHead Supply) WithFreeSupply(
        ColumnFit fit, ColumnModel column, SiteUncertainty siteUncertainty, int steps)
    {
        var own = SupplyHead.Site(site.Supply.HeadM, siteUncertainty, _feedLossM);
        var free = new ColumnFit(
            windows, column, SupplyHead.LooseUncertaintyM(site.Supply.HeadM), fit.NoiseM, fit.OpenedShare, fit.FloatingUncertaintyPerM);
        if (Fitted(free, fit, 2 * steps) is null)
        {
            return (fit, own);
        }

        var believed = SupplyHead.Believed(free, own);
        if (!believed.Found)
        {
            return (fit, own);
        }

        return (free, believed);
    }

    private void SayWave(FoundWaveSpeed wave)
    {
        if (!wave.Clear)
        {
            facts.Limits.Add(_coarse
                ? Fact.Of("wave-sampled-coarsely")
                : Fact.Of("wave-speed-from-site", ("wave_speed_m_per_s", wave.MPerS)));
        }
        else if (wave.MPerS < 0.8 * hydraulics.WaveSpeedMPerS)
        {
            facts.Findings.Add(Fact.Of(
                "wave-speed-low", ("wave_speed_m_per_s", wave.MPerS), ("expected_m_per_s", hydraulics.WaveSpeedMPerS)));
        }
    }

    private static bool Sound(ColumnFit fit) =>
        fit.ValveConstant is > 1e-3 and < 20
        && fit.LossFactor is > 0.05 and < MostLosses
        && fit.StartVelocity.All(v => Math.Abs(v) < 5);
}
