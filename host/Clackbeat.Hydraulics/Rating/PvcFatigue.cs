using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Life of a PVC-U pipe by the four published curves and Miner's rule.</summary>
internal static class PvcFatigue
{
    private const string Book = "Moser and Folkman, Buried Pipe Design, 3rd ed.";

    internal static FatigueCheck Check(PipeLoad load, LoadCycles cycles, double dimensionRatio)
    {
        var curves = Curves(load, cycles, dimensionRatio).ToList();
        var lives = curves.Select(c => c.At(cycles, 0)).OrderBy(c => c.LifeYears ?? double.PositiveInfinity).ToList();
        List<double> outcomes = Outcomes(curves, cycles);
        FatigueLife life = FatigueRating.Capped(Years(curves[0].At(cycles, 0)), outcomes[0], outcomes[^1]);
        bool beyond = lives.Any(c => c.BeyondTested);
        PipeVerdict verdict = FatigueRating.Against(life, load.DesignLifeYears);
        return new FatigueCheck
        {
            Coverage = FatigueCoverage.Life,
            Life = life,
            // No test was run to the cycles of a ram's design life: beyond the tests nothing is better than "near".
            Verdict = beyond && verdict == PipeVerdict.Within ? PipeVerdict.Near : verdict,
            Curves = lives,
            BeatsPerYear = cycles.BeatsPerYear,
            BeyondTested = beyond,
            Outcomes = outcomes,
            Rule = FatigueRule.PvcCurves,
        };
    }

    private static IEnumerable<Curve> Curves(PipeLoad load, LoadCycles cycles, double dimensionRatio)
    {
        double Stress(double pressurePa) => PvcCurves.HoopStressPa(pressurePa, dimensionRatio);
        yield return new Curve("Folkman 2020", "Folkman and Parvez, ASCE Pipelines 2020", c => PvcCurves.Folkman(Stress(c.Range) / 2));
        yield return new Curve("Bowman", $"{Book}, Eq. 4.18", c => PvcCurves.Bowman(Stress(c.Range)));
        if (cycles.PerYear.All(c => Stress(c.Mean) <= PvcCurves.HighestMeanPa))
        {
            yield return new Curve(
                "Utah State", $"{Book}, Eq. 4.19", c => PvcCurves.UtahState(Stress(c.Mean), Stress(c.Range) / 2));
        }

        if (load.PeakPa is { } peak && load.BeatsPerMin is > 0)
        {
            yield return new VinsonCurve(Stress(peak), $"{Book}, Eq. 4.17");
        }
    }

    // Folkman's, the recommended practice today, gives the middle; the ends are the harshest and the gentlest curve, with the
    // load's uncertainty and the scatter of Miner's sum on top.
    private static List<double> Outcomes(List<Curve> curves, LoadCycles cycles) =>
    [
        .. (from curve in curves
            from sigmas in new[] { -1, 0, 1 }
            let years = Years(curve.At(cycles, sigmas))
            from sum in new[] { Miner.SumAtFailure.Low, 1, Miner.SumAtFailure.High }
            select years * sum).Order(),
    ];

    private static double Years(FatigueCurveLife life) => life.LifeYears ?? double.PositiveInfinity;

    private record Curve(string Name, string Source, Func<RainflowCycle, double> CyclesToFailure)
    {
        /// <summary>Life with the ranges moved by so many times their uncertainty.</summary>
        internal virtual FatigueCurveLife At(LoadCycles cycles, int sigmas)
        {
            double damage = Miner.Damage(cycles.Scaled(1 + sigmas * cycles.RangeUncertainty), CyclesToFailure);
            return Of(damage, cycles);
        }

        protected FatigueCurveLife Of(double damagePerYear, LoadCycles cycles)
        {
            double years = damagePerYear > 0 ? 1 / damagePerYear : double.PositiveInfinity;
            double perYear = cycles.BeatsPerYear ?? cycles.PerYear.Sum(c => c.Count);
            return new FatigueCurveLife(
                Name, Source, double.IsFinite(years) ? years : null, years * perYear > PvcCurves.TestedCycles);
        }
    }

    /// <summary>Vinson's curve knows only the peak, so ringing inside a beat must not count as further peaks.</summary>
    private sealed record VinsonCurve(double PeakStressPa, string Source)
        : Curve("Vinson", Source, _ => PvcCurves.Vinson(PeakStressPa))
    {
        internal override FatigueCurveLife At(LoadCycles cycles, int sigmas) => Of(
            cycles.BeatsPerYear!.Value / PvcCurves.Vinson(PeakStressPa * (1 + sigmas * cycles.RangeUncertainty)), cycles);
    }
}
