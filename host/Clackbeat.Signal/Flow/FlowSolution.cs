using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Flow;

/// <summary>One record's way from kept beats to a fitted column; <see cref="FlowReport"/> makes the figures of it.</summary>
internal sealed class FlowSolution(
    RamSite site, SiteHydraulics hydraulics, List<FlowWindow> windows, WindowStore store, double samplesPerPeriod, List<string> limits)
{
    private const double GoodPerPeriod = 6;

    private readonly bool _coarse = samplesPerPeriod < GoodPerPeriod;

    /// <summary>The result, or null when the record can't determine it; the limits then say why.</summary>
    public FlowResult? Solve(int steps)
    {
        SiteSpread spread = SiteSpread.Of(site, hydraulics.WaveSpeedSource);
        ColumnModel column = SiteSpread.Column(site, hydraulics);
        double noiseM = OpenNoise.Of(windows);
        column = column with { BiasM = FirstGuess.BiasM(windows) };
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
        (fit, SupplyHead supply) = WithFreeSupply(fit, column, spread, steps);
        double[] spreads = UncertaintyBudget.Of(fit, windows, column, spread, wave.Spread);
        var report = new FlowReport(site, hydraulics, windows, store, _coarse, limits);
        if (report.Of(fit, spreads, wave, spread, supply) is { } result)
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

    private (ColumnFit Fit, SupplyHead Supply) WithFreeSupply(
        ColumnFit fit, ColumnModel column, SiteSpread spread, int steps)
    {
        SupplyHead own = SupplyHead.Site(site.Supply.HeadM, spread);
        var free = new ColumnFit(windows, column, SupplyHead.LooseSpreadM(site.Supply.HeadM), fit.NoiseM, fit.OpenedShare);
        free.StartFrom(fit);
        if (!free.Solve(2 * steps) || !Sound(free))
        {
            return (fit, own);
        }

        SupplyHead believed = SupplyHead.Believed(free, own);
        if (!believed.Found)
        {
            return (fit, own);
        }

        limits.Add(believed.Sentence(site.Supply.HeadM));
        return (free, believed);
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
}
