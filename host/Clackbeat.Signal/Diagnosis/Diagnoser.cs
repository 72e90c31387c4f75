using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Signal.States;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>What was found, and what could not be told.</summary>
/// <param name="Findings">Most probable first.</param>
/// <param name="Limits">What could not be told, and why.</param>
internal sealed record DiagnosisOutcome(IReadOnlyList<Finding> Findings, IReadOnlyList<Fact> Limits)
{
    /// <summary>Probabilities of the leaks, by the record's beats; null where they were not judged.</summary>
    public LeakOdds? Leaks => Judged.Count == 0 ? null : LeakOdds.Of(Judged);

    /// <summary>Probability of every condition of a ram that beats, also of those too unlikely to be a finding; none where the beats were not judged.</summary>
    public IReadOnlyList<(string Condition, double Probability)> Judged { get; init; } = [];
}

/// <summary>
/// Judges a record: first whether the sensor can be believed, then whether the ram stands still, then what its beats
/// speak for. The method, how well it does and where it fails are in docs/diagnosis.md.
/// </summary>
internal static class Diagnoser
{
    // Under this the likeliest is only the likeliest, and what else it may be is said with it.
    internal const double LeastToBeSure = 0.6;
    private const double LeastToMention = 0.15;

    internal const double LeastProbability = 0.05;
    private const int MostFindings = 4;

    /// <summary>Judges a record.</summary>
    public static DiagnosisOutcome Judge(DiagnosisInput input)
    {
        if (SensorCheck.Look(input) is { } broken)
        {
            return new DiagnosisOutcome([broken], [Fact.Of("ram-not-judged")]);
        }

        return input.State.State == RamState.Beating ? Beating(input) : Silent(input);
    }

    /// <summary>Whether a record without a baseline is one of which nothing can be said.</summary>
    /// <param name="perPeriod">Samples in a pipe period.</param>
    /// <param name="novelty">Share of the features outside nearly everything tried.</param>
    internal static bool IsBeyond(double perPeriod, double novelty) => perPeriod < SamplesPerPeriod.Least || novelty > Novelty.Limit;

    /// <summary>What the beats speak for, be it that they go on or that they were the last.</summary>
    private static DiagnosisOutcome Beating(DiagnosisInput input)
    {
        if (input.Signature is not { } signature)
        {
            return Nothing(Fact.Of("diagnosis-few-beats", ("beats_needed", SignatureMaker.LeastBeats)));
        }

        return input.Baseline is { } well
            ? ByBaseline(input, signature, well)
            : BySite(input, signature, input.RateHz * input.Hydraulics.PipePeriodS);
    }

    private static DiagnosisOutcome ByBaseline(DiagnosisInput input, Signature signature, Signature well)
    {
        ConditionModel model = ConditionModel.AgainstBaseline;
        FeatureScores scores = model.Score(Comparison.ByBaseline(signature, well));
        if (scores.Novelty > Novelty.Limit)
        {
            return Nothing(Fact.Of("diagnosis-strange-change", ("strange_share", scores.Novelty)));
        }

        IReadOnlyList<(string Condition, double Probability)> judged = model.Judge(scores);
        List<Finding> findings = Findings(model, judged, scores, input, input.Earlier.Count > 0 ? new Growth(signature, well, input.Earlier) : null);
        return Sure(findings, [.. HeldBack(scores), .. ValveOrMain(findings), .. IsUnsure(findings) ? [Fact.Of("diagnosis-undecided-baseline", FactValue.Of("likelihoods", Likelihoods(findings)))] : Array.Empty<Fact>()], judged);
    }

    private static DiagnosisOutcome BySite(DiagnosisInput input, Signature signature, double perPeriod)
    {
        ConditionModel model = ConditionModel.AgainstSite;
        FeatureScores scores = model.Score(SiteEvidence.Of(Comparison.BySite(signature), input.Site));
        if (IsBeyond(perPeriod, scores.Novelty))
        {
            return Nothing(perPeriod < SamplesPerPeriod.Least
                ? Fact.Of("diagnosis-sampled-too-slowly", ("samples_per_period", perPeriod))
                : Fact.Of("diagnosis-strange", ("strange_share", scores.Novelty)));
        }

        IReadOnlyList<(string Condition, double Probability)> judged = model.Judge(scores);
        List<Finding> findings = Findings(model, judged, scores, input, null);
        return Sure(
            findings, [.. HeldBack(scores), .. ValveOrMain(findings), IsUnsure(findings) ? Fact.Of("diagnosis-undecided", FactValue.Of("likelihoods", Likelihoods(findings))) : Fact.Of("diagnosis-no-baseline")], judged);
    }

    /// <summary>Says that a small leak of the main looks like one of the delivery valve.</summary>
    private static IEnumerable<Fact> ValveOrMain(List<Finding> findings) =>
        findings is [{ Condition: Conditions.DeliveryValveLeaking }, ..] ? [Fact.Of("diagnosis-valve-or-main")] : [];

    /// <summary>Says that features outside the study have drawn the probabilities back.</summary>
    private static IEnumerable<Fact> HeldBack(FeatureScores scores) =>
        scores.Novelty > Novelty.Mentioned ? [Fact.Of("diagnosis-held-back", ("strange_share", scores.Novelty))] : [];

    /// <summary>Whether the likeliest is only that: not likely enough, or a well ram and a fault, which exclude each other, both likely.</summary>
    internal static bool IsUnsure(IReadOnlyList<Finding> findings) =>
        findings[0].Probability < LeastToBeSure
        || (findings.Count > 1 && findings.Take(2).Any(f => f.Condition == Conditions.Healthy)
            && findings[1].Probability > FindingRules.LeastRival * findings[0].Probability);

    /// <summary>What can't be told apart.</summary>
    private static (string Condition, double Probability)[] Likelihoods(List<Finding> findings) =>
        [.. findings.Where((f, i) => i == 0 || f.Probability >= LeastToMention).Select(f => (f.Condition, f.Probability))];

    private static DiagnosisOutcome Silent(DiagnosisInput input)
    {
        DiagnosisOutcome before = input.Signature is null ? Sure([], []) : Beating(input);
        List<Finding> findings = [.. SilentRam.Judge(input).Select(f => SilentRam.WithCause(f, before.Findings))];

        // What the last beats show may have stopped it, or may not.
        findings.AddRange(before.Findings
            .Where(f => f.Condition != Conditions.Healthy && findings.TrueForAll(s => s.Condition != f.Condition))
            .Select(f => f with { Probability = 0.5 * f.Probability, Evidence = [.. f.Evidence.Select(e => Fact.Of("evidence-before-stop", ("what", e)))] })
            .Where(f => f.Probability > LeastProbability)
            .ToList());
        return Sure(findings, before.Limits) with { Judged = before.Judged };
    }

    private static List<Finding> Findings(
        ConditionModel model, IReadOnlyList<(string Condition, double Probability)> judged,
        FeatureScores scores, DiagnosisInput input, Growth? growth)
    {
        var findings = new List<Finding>();
        foreach ((string condition, double probability) in judged)
        {
            if (findings.Count == 0 || (probability >= LeastProbability && findings.Count < MostFindings))
            {
                findings.Add(Evidence.Finding(model, condition, probability, scores, input.Baseline is not null, growth));
            }
        }

        return MainLeak.Split(FindingRules.Rival(findings) is not null ? [.. findings.Select(Doubted)] : findings, input);
    }

    // A well ram at 55 beside a leak at 45: "nothing needs doing" would be more than is known.
    private static Finding Doubted(Finding finding) => finding.Condition == Conditions.Healthy
        ? finding with { Advice = Fact.Of("advice.healthy-doubtful") }
        : finding;

    private static DiagnosisOutcome Nothing(Fact why) => new([], [why]);

    private static DiagnosisOutcome Sure(
        IEnumerable<Finding> findings, IReadOnlyList<Fact> limits, IReadOnlyList<(string Condition, double Probability)>? judged = null) =>
        new([.. findings.OrderByDescending(f => f.Probability)], limits) { Judged = judged ?? [] };
}

/// <summary>What a diagnosis is made from.</summary>
/// <param name="Site">The ram.</param>
/// <param name="Hydraulics">What follows from its site file.</param>
/// <param name="Tally">The record's counts.</param>
/// <param name="State">Whether it beats.</param>
/// <param name="Zero">Whether its zero is off by the air's pressure.</param>
/// <param name="Signature">Features of its beats; null with too few.</param>
/// <param name="Baseline">Signature of the same ram when it was well; null when none was given.</param>
/// <param name="Earlier">Recordings between the baseline and this one, oldest first.</param>
/// <param name="Curves">Some beats sample by sample.</param>
/// <param name="Beats">Number of whole beats.</param>
internal sealed record DiagnosisInput(
    Site.Model.RamSite Site, SiteHydraulics Hydraulics, RecordTally Tally, StateJudge State, ZeroCheck Zero,
    Signature? Signature, Signature? Baseline, IReadOnlyList<EarlierRecord> Earlier, IReadOnlyList<TraceCurve> Curves, int Beats)
{
    /// <summary>Samples a second [Hz].</summary>
    public double RateHz => Tally.RateHz;

    /// <summary>Body pressure under the supply head [Pa].</summary>
    public double SupplyPa => Hydraulics.PressurePa(Site.Supply.HeadM);
}
