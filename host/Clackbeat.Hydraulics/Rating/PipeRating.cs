using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Is the pipe safe: the one entry to rating, suction and fatigue.</summary>
/// <remarks>
/// A pure function: to see what a change would bring, call it again with the changed load and set the two results side by side.
/// The rules, their sources and limits are explained in docs/rating.md.
/// </remarks>
public static class PipeRating
{
    /// <summary>Judges a pipe under its load. Never throws for what is unknown; the notes say what is missing.</summary>
    /// <param name="load">Pipe and load; sizes and pressures must be finite numbers, the bore and a given wall above 0.</param>
    public static PipeCheck Check(PipeLoad load)
    {
        CheckNumbers(load);
        var allowable = Allowable.Of(load);
        var pressure = PeakJudge.Verdict(load.PeakPa, load.PeakUncertaintyPa, load.PeakUnbounded, allowable.Pa);
        var fatigue = FatigueRating.Check(load, allowable);
        var suction = SuctionCheck.Of(load);
        var fittings = FittingCheck.Of(load, allowable.Pa);
        var verdict = Worst(
            pressure, [fatigue.Verdict, suction.CollapseVerdict, .. fittings.Select(f => f.Verdict)]);
        var check = new PipeCheck
        {
            RatedPa = allowable.Rated?.RatedPa,
            RatingSource = allowable.Rated?.Source ?? "",
            TemperatureFactor = allowable.Temperature,
            JointFactor = allowable.Joint,
            RecurringFactor = allowable.Rule.Factor,
            AllowablePa = allowable.Pa,
            PeakPa = load.PeakPa,
            PeakUncertaintyPa = load.PeakUncertaintyPa,
            CeilingPa = load.CeilingPa,
            CeilingUncertaintyPa = load.CeilingUncertaintyPa,
            CeilingIsMeasured = load.CeilingIsMeasured,
            TroughPa = load.TroughPa,
            DesignLifeYears = load.DesignLifeYears,
            Verdict = verdict,
            PressureVerdict = pressure,
            FatigueLifeYears = fatigue.Life,
            Fatigue = fatigue,
            Suction = suction,
            Fittings = fittings,
            Notes = [.. allowable.Notes, .. RatingWords.PeakNotes(load, allowable), .. suction.Remarks],
            Alternatives = allowable.Alternatives,
        };
        return check with
        {
            Rule = RatingWords.Rule(allowable, check),
            Explanation = [.. RatingWords.Explain(load, allowable, check)],
        };
    }

    // What was measured decides whether a verdict can be given at all; what is merely not covered doesn't take it away.
    private static PipeVerdict Worst(PipeVerdict pressure, IReadOnlyList<PipeVerdict> others)
    {
        if (pressure == PipeVerdict.Over || others.Contains(PipeVerdict.Over))
        {
            return PipeVerdict.Over;
        }

        if (pressure == PipeVerdict.Unknown)
        {
            return PipeVerdict.Unknown;
        }

        return pressure == PipeVerdict.Near || others.Contains(PipeVerdict.Near) ? PipeVerdict.Near : PipeVerdict.Within;
    }

    private static void CheckNumbers(PipeLoad load)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(load.BoreM);
        if (load.KnownWallM is { } wall)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(wall);
        }

        if (load.PrintedRatingPa is { } printed)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(printed);
        }

        if (load.PeakUncertaintyPa is { } uncertainty)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(uncertainty);
        }
    }
}
