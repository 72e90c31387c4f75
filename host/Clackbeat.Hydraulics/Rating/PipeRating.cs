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
        ArgumentNullException.ThrowIfNull(load);
        return load.Stretches.Count > 1 ? CheckWeakest(load) : CheckOne(load);
    }

    // The worst verdict decides, then the least that is allowed; what nobody can judge is worse than what is near.
    private static PipeCheck CheckWeakest(PipeLoad load)
    {
        var checks = load.Stretches.Select(s => (s.Name, Check: CheckOne(load.On(s)))).ToList();
        (string? name, PipeCheck? weakest) = checks
            .OrderByDescending(c => Rank(c.Check.Verdict))
            .ThenBy(c => c.Check.AllowablePa ?? double.PositiveInfinity)
            .First();
        return weakest with
        {
            Weakest = name,
            Stretches = [.. checks.Select(c => new StretchCheck(c.Name, c.Check.AllowablePa, c.Check.Verdict))],
            Remarks = [new RatingRemark(RatingRemarkCode.WeakestSection) { Part = name }, .. weakest.Remarks],
        };
    }

    private static int Rank(PipeVerdict verdict) => verdict switch
    {
        PipeVerdict.Over => 3,
        PipeVerdict.Unknown => 2,
        PipeVerdict.Near => 1,
        _ => 0,
    };

    private static PipeCheck CheckOne(PipeLoad load)
    {
        CheckNumbers(load);
        var allowable = Allowable.Of(load);
        PipeVerdict pressure = PeakJudge.Verdict(load.PeakPa, load.PeakUncertaintyPa, load.PeakUnbounded, allowable.Pa);
        FatigueCheck fatigue = FatigueRating.Check(load, allowable);
        var suction = SuctionCheck.Of(load);
        IReadOnlyList<FittingCheck> fittings = FittingCheck.Of(load, allowable.Pa);
        PipeVerdict verdict = Worst(pressure, [suction.CollapseVerdict, .. fittings.Select(f => f.Verdict)]);
        return new PipeCheck
        {
            RatedPa = allowable.Rated?.RatedPa,
            Source = allowable.Rated?.Source,
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
            Rule = allowable.Rule.Rule,
            DecidedBy = Decision(verdict, pressure, suction, fittings),
            Remarks = [.. RatingRemarks.Verdict(load, allowable, pressure, fittings)],
            Notes = [.. allowable.Notes, .. RatingRemarks.Beside(load, allowable), .. suction.Remarks],
            Alternatives = allowable.Alternatives,
        };
    }

    private static PipeDecision Decision(
        PipeVerdict verdict, PipeVerdict pressure, SuctionCheck suction, IReadOnlyList<FittingCheck> fittings)
    {
        if (pressure == verdict)
        {
            return PipeDecision.Pressure;
        }

        return fittings.Any(f => f.Name != FittingCheck.DrivePipe && f.Verdict == verdict) ? PipeDecision.Part
            : suction.CollapseVerdict == verdict ? PipeDecision.Folding
            : PipeDecision.Pressure;
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
