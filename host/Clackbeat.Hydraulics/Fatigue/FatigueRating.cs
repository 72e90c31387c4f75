using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;

namespace Clackbeat.Hydraulics.Fatigue;

/// <summary>Fatigue of a drive pipe, by what is recognised for its material.</summary>
internal static class FatigueRating
{
    // Ratio of hoop stress to pressure where only a rating is known: 2000 psi is the highest design stress in use for PVC-U
    // (ASTM D2241), so the stress is never taken too low.
    private const double HighestPvcDesignStressPa = 2000 * 6894.757;

    internal static FatigueCheck Check(PipeLoad load, Allowable allowable)
    {
        var cycles = LoadCycles.Of(load);
        if (cycles is null)
        {
            return None(FatigueCoverage.NotEnoughData, "Fatigue needs the beat rate and the peak, or a recording.", null);
        }

        var check = ByMaterial(load, allowable, cycles);
        if (cycles.Assumptions.Count > 0 && check.Life is not null)
        {
            check = check with { Explanation = $"{check.Explanation} {string.Join(" ", cycles.Assumptions)}" };
        }

        return load.PeakUnbounded ? AtBest(check) : check;
    }

    internal static FatigueCheck None(FatigueCoverage coverage, string words, double? beatsPerYear) =>
        new() { Coverage = coverage, Explanation = words, BeatsPerYear = beatsPerYear };

    internal static FatigueLife Capped(double central, double low, double high)
    {
        static double Cap(double years) => Math.Min(years, FatigueCheck.LongestLifeYears);
        return new FatigueLife(Cap(central), Cap(Math.Min(low, central)), Cap(Math.Max(high, central)));
    }

    internal static PipeVerdict Against(FatigueLife life, double designLifeYears)
    {
        if (life.Value < designLifeYears)
        {
            return PipeVerdict.Over;
        }

        return life.Low < designLifeYears ? PipeVerdict.Near : PipeVerdict.Within;
    }

    private static FatigueCheck ByMaterial(PipeLoad load, Allowable allowable, LoadCycles cycles) => load.Material switch
    {
        PipeMaterial.PvcU when DimensionRatio(load, allowable) is { } ratio => PvcFatigue.Check(load, cycles, ratio),
        PipeMaterial.PvcU => None(
            FatigueCoverage.NotEnoughData,
            "Fatigue of PVC-U needs the wall thickness, the class or the rating.",
            cycles.BeatsPerYear),
        PipeMaterial.Pe100 or PipeMaterial.Pe80 or PipeMaterial.Pe4710 => Polyethylene(load, allowable, cycles),
        PipeMaterial.Steel or PipeMaterial.GalvanisedSteel or PipeMaterial.StainlessSteel
            when load.KnownWallM is { } wall && load.OutsideM is { } outside && outside <= 0.4 =>
            SteelFatigue.Check(load, cycles, wall, outside),
        PipeMaterial.Steel or PipeMaterial.GalvanisedSteel or PipeMaterial.StainlessSteel => None(
            FatigueCoverage.NotEnoughData, "Fatigue of steel needs the wall thickness.", cycles.BeatsPerYear),
        _ => None(
            FatigueCoverage.NotCovered,
            "No recognised fatigue curve for this material under internal pressure is known to this program: fatigue is not "
            + "covered. Ask the maker what recurring swings the pipe is made for.",
            cycles.BeatsPerYear),
    };

    private static double? DimensionRatio(PipeLoad load, Allowable allowable)
    {
        if (load.KnownWallM is { } wall && load.OutsideM is { } outside)
        {
            return outside / wall;
        }

        return allowable.Rated is { } rated ? 1 + 2 * HighestPvcDesignStressPa / rated.RatedPa : null;
    }

    private static FatigueCheck Polyethylene(PipeLoad load, Allowable allowable, LoadCycles cycles)
    {
        const string common = "Tough polyethylene is taken to need no derating for fatigue (UK IGN 4-37-02; PE100+ Association). "
            + "The rule gives no life in years.";
        if (allowable.SteadyPa is not { } steady || load.PeakPa is not { } peak)
        {
            return None(FatigueCoverage.RuleOnly, common + " Without a rating and a peak it can't be applied.", cycles.BeatsPerYear);
        }

        var verdict = PeakJudge.Verdict(peak, load.PeakUncertaintyPa ?? 0, false, steady);
        var words = verdict == PipeVerdict.Within
            ? common
            : common + " But the peak exceeds the plain rating, or may: swings to 1.5 times the rating were tested to 4.2 million cycles, "
                + $"which this ram makes in {Say.Years(4.2e6 / (cycles.BeatsPerYear ?? cycles.PerYear.Sum(c => c.Count)))}. "
                + "Fused joints and fittings are the weaker part.";
        return None(FatigueCoverage.RuleOnly, words, cycles.BeatsPerYear) with
        {
            Verdict = verdict == PipeVerdict.Within ? PipeVerdict.Within : PipeVerdict.Near,
            BeyondTested = verdict != PipeVerdict.Within,
            Rule = "Fatigue of polyethylene: no derating for tough grades up to the plain rating (UK IGN 4-37-02; PE100+ Association)",
        };
    }

    // True peaks are higher than the ones seen, so true lives are shorter: the figures are upper bounds.
    private static FatigueCheck AtBest(FatigueCheck check) => check with
    {
        Verdict = check.Verdict == PipeVerdict.Over ? PipeVerdict.Over : PipeVerdict.Unknown,
        Explanation = check.Life is null
            ? check.Explanation
            : "At best, for the true peaks are higher than the ones recorded: " + check.Explanation,
    };
}
