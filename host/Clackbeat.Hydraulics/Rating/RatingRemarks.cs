namespace Clackbeat.Hydraulics.Rating;

/// <summary>Gathers what is to be said of the peak, the weakest part and the ceiling.</summary>
internal static class RatingRemarks
{
    /// <summary>The verdict's own remarks: the peak, and the weakest part where it decides.</summary>
    internal static IEnumerable<RatingRemark> Verdict(PipeLoad load, Allowable allowable, PipeVerdict pressure, IReadOnlyList<FittingCheck> fittings)
    {
        yield return new RatingRemark(CodeOf(load, allowable, pressure))
        {
            PressurePa = load.PeakPa,
            UncertaintyPa = load.PeakUncertaintyPa is > 0 and var u ? u : null,
            LimitPa = allowable.Pa,
        };
        FittingCheck? weak = fittings.FirstOrDefault(f => f.Name != FittingCheck.DrivePipe
            && f.Verdict is PipeVerdict.Over or PipeVerdict.Near);
        if (weak is { AllowablePa: { } rating })
        {
            yield return new RatingRemark(weak.Verdict == PipeVerdict.Over ? RatingRemarkCode.PartOver : RatingRemarkCode.PartNear)
            {
                Part = weak.Name,
                LimitPa = rating,
            };
        }
    }

    /// <summary>What should be known beside it.</summary>
    internal static IEnumerable<RatingRemark> Beside(PipeLoad load, Allowable allowable)
    {
        (bool Holds, RatingRemarkCode Code)[] doubts =
        [
            (load.Clipped, RatingRemarkCode.SensorClipped),
            (load.SampledTooSlowly, RatingRemarkCode.SampledTooSlowly),
            (load.SensorTooSlow, RatingRemarkCode.SensorTooSlow),
            (load.PeakIsLowerBound, RatingRemarkCode.PeakReadsLow),
            (load.PeakPa is not null && load.PeakUncertaintyPa is null, RatingRemarkCode.PeakWithoutUncertainty),
        ];
        return
        [
            .. doubts.Where(d => d.Holds).Select(d => new RatingRemark(d.Code)),
            .. AboutCeiling(load, allowable),
            .. load.MeanPa is { } mean && allowable.SteadyPa is { } steady && mean > steady
                ? (RatingRemark[])[new RatingRemark(RatingRemarkCode.MeanOverRating) { PressurePa = mean, LimitPa = steady }]
                : [],
        ];
    }

    private static RatingRemarkCode CodeOf(PipeLoad load, Allowable allowable, PipeVerdict pressure) => pressure switch
    {
        _ when allowable.Pa is null => RatingRemarkCode.AllowableUnknown,
        _ when load.PeakPa is null => RatingRemarkCode.PeakUnknown,
        PipeVerdict.Within => RatingRemarkCode.PeakWithin,
        PipeVerdict.Near => RatingRemarkCode.PeakNear,
        PipeVerdict.Over => RatingRemarkCode.PeakOver,
        _ => RatingRemarkCode.PeakUnbounded,
    };

    private static IEnumerable<RatingRemark> AboutCeiling(PipeLoad load, Allowable allowable)
    {
        if (load.CeilingPa is not { } ceiling)
        {
            yield break;
        }

        double high = ceiling + (load.CeilingUncertaintyPa ?? 0);
        RatingRemark Of(RatingRemarkCode code) => new(code)
        {
            PressurePa = ceiling,
            UncertaintyPa = load.CeilingUncertaintyPa,
            LimitPa = allowable.Pa,
            IsMeasured = load.CeilingIsMeasured,
        };
        if (allowable.Pa is { } allowed)
        {
            yield return Of(high > allowed ? RatingRemarkCode.CeilingOverLimit : RatingRemarkCode.CeilingUnderLimit);
        }

        if (load.PeakPa is { } peak && peak - (load.PeakUncertaintyPa ?? 0) > high)
        {
            yield return Of(RatingRemarkCode.PeakAboveCeiling);
        }
    }
}
