using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>The verdict in sentences for the keeper.</summary>
internal static class RatingWords
{
    internal static string Explain(
        PipeLoad load,
        Allowable allowable,
        PipeVerdict pressure,
        FatigueCheck fatigue,
        IReadOnlyList<FittingCheck> fittings)
    {
        var sentences = new List<string> { Peak(load, allowable, pressure) };
        var weak = fittings.FirstOrDefault(f => f.Name != FittingCheck.PipeName
            && f.Verdict is PipeVerdict.Over or PipeVerdict.Near);
        if (weak is { AllowablePa: { } rating })
        {
            sentences.Add($"The weakest part is {weak.Name}, rated {Say.Pressure(rating)}: "
                + (weak.Verdict == PipeVerdict.Over ? "the peak exceeds it." : "the peak reaches it within its uncertainty."));
        }

        if (pressure is PipeVerdict.Within or PipeVerdict.Near && fatigue.Verdict == PipeVerdict.Over)
        {
            sentences.Add("The pressure alone would be allowed; the endless repetition is not.");
        }

        return string.Join(" ", sentences.Append(fatigue.Explanation));
    }

    internal static IEnumerable<string> PeakNotes(PipeLoad load, Allowable allowable)
    {
        if (load.Clipped)
        {
            yield return "The sensor stood at the end of its range, so the true peaks are higher than recorded: take a sensor of a wider range.";
        }

        if (load.SampledTooSlowly)
        {
            yield return "Fewer than six samples fall into a pipe period 2L/a, so peaks slip between them: record faster.";
        }

        if (load.PeakIsLowerBound)
        {
            yield return "The recorded peaks are known to read low; the true ones are higher.";
        }

        if (load.PeakPa is not null && load.PeakUncertaintyPa is null)
        {
            yield return "The peak came without an uncertainty, so it can't be called within the limit.";
        }

        if (load.CeilingPa is { } ceiling && allowable.Pa is { } allowed)
        {
            yield return ceiling > allowed
                ? $"If the delivery valve stuck shut, a beat could reach static + aV/g = {Say.Pressure(ceiling)}, more than is allowed."
                : $"Even static + aV/g, {Say.Pressure(ceiling)}, stays under what is allowed.";
        }

        if (load.MeanPa is { } mean && allowable.SteadyPa is { } steady && mean > steady)
        {
            yield return $"The mean pressure, {Say.Pressure(mean)}, exceeds the steady rating of {Say.Pressure(steady)}.";
        }
    }

    private static string Peak(PipeLoad load, Allowable allowable, PipeVerdict verdict)
    {
        if (allowable.Pa is not { } allowed)
        {
            return "What this pipe may bear is not known, so no verdict can be given.";
        }

        if (load.PeakPa is not { } peak)
        {
            return $"No peak is known; this pipe may meet {Say.Pressure(allowed)} again and again.";
        }

        var figures = $"{Say.Pressure(peak)} against {Say.Pressure(allowed)} allowed again and again";
        return verdict switch
        {
            PipeVerdict.Within => $"The peak stays within the limit: {figures}.",
            PipeVerdict.Near => $"The peak reaches the limit within its uncertainty: {figures}.",
            PipeVerdict.Over => $"The peak exceeds the limit: {figures}.",
            _ => $"The recorded peak is {figures}, but the true peak may be higher by an unknown amount: no verdict.",
        };
    }
}
