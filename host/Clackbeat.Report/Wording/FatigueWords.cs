using Clackbeat.Hydraulics.Rating;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>The fatigue estimate as sentences: a range, the reason for its width, and what follows.</summary>
internal static class FatigueWords
{
    /// <summary>The sentences.</summary>
    internal static IEnumerable<Sentence> Of(FatigueCheck fatigue, double designLifeYears)
    {
        if (fatigue.Lack != FatigueLack.None)
        {
            yield return Lacking(fatigue.Lack);
            yield break;
        }

        if (fatigue.Coverage == FatigueCoverage.NotCovered)
        {
            yield return Phrases.Say("rating.no-recognised-fatigue-curve-material");
            yield break;
        }

        foreach (Sentence sentence in fatigue.Rule switch
        {
            FatigueRule.Polyethylene => Polyethylene(fatigue),
            FatigueRule.En1993 => Steel(fatigue, designLifeYears),
            FatigueRule.PvcCurves => Pvc(fatigue, designLifeYears),
            _ => [],
        })
        {
            yield return sentence;
        }

        if (fatigue.AtBest && fatigue.Life is not null)
        {
            yield return Phrases.Say("rating.these-lives-best-peaks-higher");
        }

        if (fatigue.Life is not null && Assumed(fatigue.Assumption) is { } assumed)
        {
            yield return assumed;
        }
    }

    /// <summary>The rule and its source; empty when none was applied.</summary>
    internal static string Rule(FatigueCheck fatigue, double designLifeYears) => fatigue.Rule switch
    {
        FatigueRule.PvcCurves => Phrases.Say("rating.fatigue-pvcu-rainflow-count-astm", ("design_life_years", designLifeYears)),
        FatigueRule.Polyethylene => Phrases.Say("rating.fatigue-polyethylene-no-derating-tough"),
        FatigueRule.En1993 => Phrases.Say("rating.fatigue-steel-en-1993192005-tables", ("design_life_years", designLifeYears)),
        _ => "",
    };

    private static string Lacking(FatigueLack lack) => lack switch
    {
        FatigueLack.Load => Phrases.Say("rating.fatigue-needs-beat-rate-peak"),
        FatigueLack.PlasticWall => Phrases.Say("rating.fatigue-pvcu-needs-wall-thickness"),
        FatigueLack.SteelWall => Phrases.Say("rating.fatigue-steel-needs-wall-thickness"),
        FatigueLack.SoundWall => Phrases.Say("rating.thread-mill-tolerance-rust-leave"),
        _ => Phrases.Say("rating.tough-polyethylene-taken-need-no"),
    };

    private static IEnumerable<Sentence> Pvc(FatigueCheck fatigue, double designLifeYears)
    {
        (FatigueLife? life, string? range) = (fatigue.Life!, Range(fatigue.Life!));
        yield return fatigue.Verdict == PipeVerdict.Over
            ? Phrases.Say("rating.fatigue-every-published-curve-pipe", ("design_life_years", Written.Round(designLifeYears, 2)), ("range", range))
            : life.Low >= designLifeYears
                ? Phrases.Say("rating.fatigue-every-published-curve-gives", ("design_life_years", Written.Round(designLifeYears, 2)), ("range", range))
                : Phrases.Say("rating.fatigue-running-curve-recommended-today", ("range", range), ("value", Written.Years(life.Value)), ("design_life_years", Written.Round(designLifeYears, 2)));
        if (fatigue.CurveRatio is { } ratio)
        {
            yield return Phrases.Say("rating.range-wide-because-published-curves", ("ratio", Written.Round(ratio, 2)));
        }

        if (fatigue.BeyondTested)
        {
            yield return Phrases.Say("rating.longest-these-lives-ask-more");
        }

        yield return Phrases.Say("rating.threads-glued-fittings-scratches-heat");
    }

    private static IEnumerable<Sentence> Steel(FatigueCheck fatigue, double designLifeYears)
    {
        FatigueLife life = fatigue.Life!;
        yield return life.Low >= FatigueCheck.LongestLifeYears
            ? Phrases.Say("rating.fatigue-every-pressure-swing-stays")
            : fatigue.Verdict == PipeVerdict.Over
                ? Phrases.Say("rating.fatigue-even-sound-weld-steel", ("design_life_years", Written.Round(designLifeYears, 2)), ("range", Range(life)))
                : Phrases.Say("rating.fatigue-en-199319-steel-lasts", ("range", Range(life)), ("value", Written.Years(life.Value)));
        if (life.Low < FatigueCheck.LongestLifeYears)
        {
            yield return Phrases.Say("rating.range-wide-because-low-end");
        }

        yield return Phrases.Say("rating.holds-sound-wall-where-rust");
        yield return Phrases.Say("rating.unsupported-pipe-shakes-every-beat");
    }

    private static IEnumerable<Sentence> Polyethylene(FatigueCheck fatigue)
    {
        yield return Phrases.Say("rating.fatigue-tough-polyethylene-taken-need");
        if (fatigue.TestedWithinYears is { } years)
        {
            yield return Phrases.Say("rating.peak-exceeds-plain-rating-may", ("years", Written.Years(years)));
        }
    }

    private static string? Assumed(SwingAssumption assumption) => assumption switch
    {
        SwingAssumption.FromZero => Phrases.Say("rating.one-cycle-beat-taken-zero"),
        SwingAssumption.FromTrough => Phrases.Say("rating.one-cycle-beat-taken-trough"),
        _ => null,
    };

    private static string Range(FatigueLife life) => life.Low < life.High
        ? Phrases.Say("rating.between", ("low", Written.Years(life.Low)), ("high", Written.Years(life.High)))
        : Written.Years(life.Low);
}
