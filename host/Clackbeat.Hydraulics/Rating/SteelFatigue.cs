using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Life of a steel pipe by EN 1993-1-9: the mill weld under hoop stress, and the thread under end thrust.</summary>
public static class SteelFatigue
{
    /// <summary>Name of the curve of the longitudinal weld, in the JSON.</summary>
    public const string MillWeld = "mill weld under hoop stress";

    /// <summary>Name of the curve of the thread, in the JSON.</summary>
    public const string Thread = "thread under end thrust";

    /// <summary>Where both come from.</summary>
    public const string Source = "EN 1993-1-9:2005, Tables 8.1 and 8.3, partial factor 1.0 to 1.35";

    private static readonly double[] PartialFactors = [SteelCurve.PartialFactor.Low, Middle, SteelCurve.PartialFactor.High];

    internal static FatigueCheck Check(PipeLoad load, LoadCycles cycles, double wallM, double outsideM)
    {
        MetalGrade grade = MetalGrade.All.First(g => g.Material == load.Material);
        var details = Details(load, grade, wallM, outsideM).ToList();
        if (details.Any(d => !double.IsFinite(d.StressPerPressure)))
        {
            return FatigueRating.None(
                FatigueCoverage.NotEnoughData, FatigueLack.SoundWall, cycles.BeatsPerYear);
        }

        var central = details.Select(d => Years(cycles, d, 0, d.CategoryPa, Middle)).ToList();
        FatigueLife life = FatigueRating.Capped(
            central.Min(),
            details.Min(d => Years(cycles, d, 1, d.LowCategoryPa, SteelCurve.PartialFactor.High)),
            details.Min(d => Years(cycles, d, -1, d.CategoryPa, SteelCurve.PartialFactor.Low)));
        return new FatigueCheck
        {
            Coverage = FatigueCoverage.Life,
            Life = life,
            Verdict = FatigueRating.Against(life, load.DesignLifeYears),
            Curves = [.. details.Zip(central, (d, years) => new FatigueCurveLife(
                d.Name, Source, double.IsFinite(years) ? years : null, false)).OrderBy(c => c.LifeYears ?? double.PositiveInfinity)],
            BeatsPerYear = cycles.BeatsPerYear,
            Outcomes = Outcomes(details, cycles),
            Rule = FatigueRule.En1993,
        };
    }

    private static List<double> Outcomes(List<Detail> details, LoadCycles cycles) =>
    [
        .. (from sigmas in Enumerable.Range(-1, 3)
            from factor in PartialFactors
            from years in new[]
            {
                details.Min(d => Years(cycles, d, sigmas, d.LowCategoryPa, factor)),
                details.Min(d => Years(cycles, d, sigmas, d.CategoryPa, factor)),
            }
            select years).Order(),
    ];

    private static double Middle => Math.Sqrt(SteelCurve.PartialFactor.Low * SteelCurve.PartialFactor.High);

    private static IEnumerable<Detail> Details(PipeLoad load, MetalGrade grade, double wallM, double outsideM)
    {
        double plain = MetalWall.EffectiveM(grade, wallM, outsideM, false, load.CorrosionAllowanceM);
        yield return new Detail(
            MillWeld,
            plain > 0 ? (outsideM - plain) / (2 * plain) : double.PositiveInfinity,
            SteelCurve.SeamCategoryPa,
            SteelCurve.UninspectedSeamCategoryPa);
        if (RatedPressure.MayBeThreaded(load))
        {
            double root = MetalWall.EffectiveM(grade, wallM, outsideM, true, load.CorrosionAllowanceM);
            // The end thrust p π D²/4 on the ring left at the thread's root.
            yield return new Detail(
                Thread,
                root > 0 ? load.BoreM * load.BoreM / (4 * root * (load.BoreM + root)) : double.PositiveInfinity,
                SteelCurve.ThreadCategoryPa,
                SteelCurve.ThreadCategoryPa);
        }
    }

    private static double Years(LoadCycles cycles, Detail detail, int sigmas, double categoryPa, double partialFactor)
    {
        double damage = Miner.Damage(
            cycles.Scaled(1 + sigmas * cycles.RangeUncertainty),
            c => SteelCurve.Cycles(c.Range * detail.StressPerPressure, categoryPa / partialFactor));
        return damage > 0 ? 1 / damage : double.PositiveInfinity;
    }

    /// <param name="Name">Name.</param>
    /// <param name="StressPerPressure">Stress in the detail over gauge pressure.</param>
    /// <param name="CategoryPa">Category [Pa].</param>
    /// <param name="LowCategoryPa">Category for the low end [Pa].</param>
    private sealed record Detail(string Name, double StressPerPressure, double CategoryPa, double LowCategoryPa);
}
