namespace Clackbeat.Hydraulics.Rating;

/// <summary>The verdict in sentences for the keeper.</summary>
internal static class RatingWords
{
    internal static IEnumerable<Sentence> Explain(PipeLoad load, Allowable allowable, PipeCheck check)
    {
        yield return Peak(load, allowable, check.PressureVerdict);
        var weak = check.Fittings.FirstOrDefault(f => f.Name != FittingCheck.PipeName
            && f.Verdict is PipeVerdict.Over or PipeVerdict.Near);
        if (weak is { AllowablePa: { } rating })
        {
            yield return Sentence.Of($"The weakest part is {weak.Name}, rated {new SaidPressure(rating)}: "
                + $"{(weak.Verdict == PipeVerdict.Over ? "the peak exceeds it." : "the peak reaches it within its uncertainty.")}");
        }

        if (check is { PressureVerdict: PipeVerdict.Within or PipeVerdict.Near, Fatigue.Verdict: PipeVerdict.Over })
        {
            yield return "The pressure alone would be allowed; the endless repetition is not.";
        }

        if (check.Suction is { CollapseVerdict: PipeVerdict.Over })
        {
            yield return "The suction alone is enough to fold the wall.";
        }

        yield return check.Fatigue!.Explanation;
    }

    /// <summary>The rule that decided, with its source; the pressure rule stands behind it where that was not the one.</summary>
    internal static string Rule(Allowable allowable, PipeCheck check)
    {
        var pressure = allowable.Rule.Words;
        if (check.PressureVerdict == check.Verdict)
        {
            return pressure;
        }

        var decided = Deciding(check);
        return decided is null ? pressure : $"{decided}. On the pressure: {pressure}";
    }

    internal static IEnumerable<Sentence> PeakNotes(PipeLoad load, Allowable allowable)
    {
        if (load.Clipped)
        {
            yield return "The sensor stood at the end of its range, so the true peaks are higher than recorded: take a sensor of a wider range.";
        }

        if (load.SampledTooSlowly)
        {
            yield return "Fewer than six samples fall into a pipe period 2L/a, so peaks slip between them: record faster.";
        }

        if (load.SensorTooSlow)
        {
            yield return "The sensor, or the line to it, answers more slowly than a sixth of a pipe period, so it smooths the peaks away: fit a faster one on the body itself.";
        }

        if (load.PeakIsLowerBound)
        {
            yield return "The recorded peaks are known to read low; the true ones are higher.";
        }

        if (load.PeakPa is not null && load.PeakUncertaintyPa is null)
        {
            yield return "The peak came without an uncertainty, so it can't be called within the limit.";
        }

        foreach (var sentence in AboutCeiling(load, allowable))
        {
            yield return sentence;
        }

        if (load.MeanPa is { } mean && allowable.SteadyPa is { } steady && mean > steady)
        {
            yield return Sentence.Of(
                $"The mean pressure, {new SaidPressure(mean)}, exceeds the steady rating of {new SaidPressure(steady)}.");
        }
    }

    private static string? Deciding(PipeCheck check)
    {
        if (check.Fatigue is { Rule.Length: > 0 } fatigue && fatigue.Verdict == check.Verdict)
        {
            return fatigue.Rule;
        }

        if (check.Fittings.FirstOrDefault(f => f.Name != FittingCheck.PipeName && f.Verdict == check.Verdict) is { } weak)
        {
            return $"The peak against the rating printed on the weakest part, {weak.Name}";
        }

        return check.Suction?.CollapseVerdict == check.Verdict ? SuctionCheck.CollapseRule : null;
    }

    private static IEnumerable<Sentence> AboutCeiling(PipeLoad load, Allowable allowable)
    {
        if (load.CeilingPa is not { } ceiling)
        {
            yield break;
        }

        var said = new SaidPressure(ceiling, load.CeilingUncertaintyPa);
        var basis = load.CeilingIsMeasured
            ? "with the closing velocity of this record"
            : "with the closing velocity expected of such a ram, which its waste valve's setting decides";
        if (allowable.Pa is { } allowed)
        {
            yield return ceiling + (load.CeilingUncertaintyPa ?? 0) > allowed
                ? Sentence.Of($"If the delivery valve stuck shut, a beat could reach static + aV/g = {said}, {basis}: more than is allowed, or too near to tell.")
                : Sentence.Of($"Even if the delivery valve stuck shut, static + aV/g = {said}, {basis}, stays under what is allowed.");
        }

        if (load.PeakPa is { } peak && peak - (load.PeakUncertaintyPa ?? 0) > ceiling + (load.CeilingUncertaintyPa ?? 0))
        {
            yield return Sentence.Of($"The peak stands above static + aV/g = {said}. Look for a parted water column that rejoins, a sensor "
                + $"that reads too high, or a wrong wall or length in the site file.");
        }
    }

    private static Sentence Peak(PipeLoad load, Allowable allowable, PipeVerdict verdict)
    {
        if (allowable.Pa is not { } allowed)
        {
            return "What this pipe may bear is not known, so no verdict can be given.";
        }

        var limit = new SaidPressure(allowed);
        if (load.PeakPa is not { } pa)
        {
            return Sentence.Of($"No peak is known; this pipe may meet {limit} again and again.");
        }

        var peak = new SaidPressure(pa, load.PeakUncertaintyPa is > 0 ? load.PeakUncertaintyPa : null);
        return verdict switch
        {
            PipeVerdict.Within => Sentence.Of($"The peak stays within the limit: {peak} against {limit} allowed again and again."),
            PipeVerdict.Near => Sentence.Of($"The peak reaches the limit within its uncertainty: {peak} against {limit} allowed again and again."),
            PipeVerdict.Over => Sentence.Of($"The peak exceeds the limit: {peak} against {limit} allowed again and again."),
            _ => Sentence.Of($"The recorded peak is {peak} against {limit} allowed again and again, but the true peak may be higher by an unknown amount: no verdict."),
        };
    }
}
