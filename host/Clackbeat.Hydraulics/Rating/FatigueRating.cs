using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Fatigue of a drive pipe, by what is recognised for its material.</summary>
internal static class FatigueRating
{
    // Ratio of hoop stress to pressure where only a rating is known: 2000 psi is the highest design stress in use for PVC-U
    // (ASTM D2241), so the stress is never taken too low.
    private static readonly double HighestPvcDesignStressPa = 2000 * Constants.PsiPa;

    // Swings to 1.5 times the rating, none failed (Crabtree and Oliphant; PE4710).
    private const double TestedCyclesOfPolyethylene = 4.2e6;

    internal static FatigueCheck Check(PipeLoad load, Allowable allowable)
    {
        var cycles = LoadCycles.Of(load);
        if (cycles is null)
        {
            return None(FatigueCoverage.NotEnoughData, FatigueLack.Load, null);
        }

        FatigueCheck check = ByMaterial(load, allowable, cycles) with { Assumption = cycles.Assumption };

        return load.PeakUnbounded ? AtBest(check) : check;
    }

    internal static FatigueCheck None(FatigueCoverage coverage, FatigueLack lack, double? beatsPerYear) =>
        new() { Coverage = coverage, Lack = lack, BeatsPerYear = beatsPerYear };

    internal static FatigueLife Capped(double central, double low, double high)
    {
        static double Cap(double years) => Math.Min(years, FatigueCheck.LongestLifeYears);
        return new FatigueLife(Cap(central), Cap(Math.Min(low, central)), Cap(Math.Max(high, central)));
    }

    internal static PipeVerdict Against(FatigueLife life, double designLifeYears)
    {
        if (life.High < designLifeYears)
        {
            return PipeVerdict.Over;
        }

        return life.Low < designLifeYears ? PipeVerdict.Near : PipeVerdict.Within;
    }

    private static FatigueCheck ByMaterial(PipeLoad load, Allowable allowable, LoadCycles cycles) => load.Material switch
    {
        PipeMaterial.PvcU when DimensionRatio(load, allowable) is { } ratio => PvcFatigue.Check(load, cycles, ratio),
        PipeMaterial.PvcU => None(
            FatigueCoverage.NotEnoughData, FatigueLack.PlasticWall, cycles.BeatsPerYear),
        PipeMaterial.Pe100 or PipeMaterial.Pe80 or PipeMaterial.Pe4710 => Polyethylene(load, allowable, cycles),
        PipeMaterial.Steel or PipeMaterial.GalvanisedSteel or PipeMaterial.StainlessSteel
            when load.KnownWallM is { } wall && load.OutsideM is { } outside && outside <= 0.4 =>
            SteelFatigue.Check(load, cycles, wall, outside),
        PipeMaterial.Steel or PipeMaterial.GalvanisedSteel or PipeMaterial.StainlessSteel => None(
            FatigueCoverage.NotEnoughData, FatigueLack.SteelWall, cycles.BeatsPerYear),
        _ => None(FatigueCoverage.NotCovered, FatigueLack.None, cycles.BeatsPerYear),
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
        if (allowable.SteadyPa is not { } steady || load.PeakPa is not { } peak)
        {
            return None(FatigueCoverage.RuleOnly, FatigueLack.RatingAndPeak, cycles.BeatsPerYear);
        }

        bool isUnderRating = PeakJudge.Verdict(peak, load.PeakUncertaintyPa ?? 0, false, steady) == PipeVerdict.Within;
        return None(FatigueCoverage.RuleOnly, FatigueLack.None, cycles.BeatsPerYear) with
        {
            Verdict = isUnderRating ? PipeVerdict.Within : PipeVerdict.Near,
            BeyondTested = !isUnderRating,
            TestedWithinYears = isUnderRating ? null : TestedCyclesOfPolyethylene / (cycles.BeatsPerYear ?? cycles.PerYear.Sum(c => c.Count)),
            Rule = FatigueRule.Polyethylene,
        };
    }

    // The peaks are higher than the ones seen, so the lives are shorter: the figures are upper bounds.
    private static FatigueCheck AtBest(FatigueCheck check) => check with
    {
        Verdict = check.Verdict == PipeVerdict.Over ? PipeVerdict.Over : PipeVerdict.Unknown,
        AtBest = true,
    };
}
