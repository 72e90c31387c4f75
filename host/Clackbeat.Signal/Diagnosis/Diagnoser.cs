using Clackbeat.Signal.Analysis;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>What was found, and what could not be told.</summary>
/// <param name="Findings">Most probable first.</param>
/// <param name="Limits">Sentences.</param>
internal sealed record DiagnosisOutcome(IReadOnlyList<Finding> Findings, IReadOnlyList<string> Limits);

/// <summary>
/// Judges a record: first whether the sensor can be believed, then whether the ram stands still, then what its beats
/// speak for. The method, how well it does and where it fails are in docs/diagnosis.md.
/// </summary>
internal static class Diagnoser
{
    // Under three samples a period the end of the delivery, the recoil and the echoes fall between the samples.
    private const double LeastPerPeriod = 3;

    // So many signs outside everything ever tried mean another kind of ram, or a wrong site file.
    private const double MostStrange = 0.25;

    // Under this the likeliest is only the likeliest, and what else it may be is said with it.
    private const double LeastToBeSure = 0.6;
    private const double LeastRival = 0.5;
    private const double LeastToMention = 0.15;

    private const double LeastProbability = 0.05;
    private const int MostFindings = 4;

    /// <summary>Judges a record.</summary>
    public static DiagnosisOutcome Judge(DiagnosisInput input)
    {
        if (SensorCheck.Look(input) is { } broken)
        {
            return new DiagnosisOutcome([broken], ["The reading can't be trusted, so the ram itself is not judged."]);
        }

        return input.State.State == RamState.Beating ? Beating(input) : Silent(input);
    }

    /// <summary>Whether a record without a baseline is one of which nothing can be said.</summary>
    /// <param name="perPeriod">Samples in a pipe period.</param>
    /// <param name="strangeness">Share of the signs outside nearly everything tried.</param>
    internal static bool IsBeyond(double perPeriod, double strangeness) => perPeriod < LeastPerPeriod || strangeness > MostStrange;

    /// <summary>What the beats speak for, be it that they go on or that they were the last.</summary>
    private static DiagnosisOutcome Beating(DiagnosisInput input)
    {
        if (input.Signature is not { } signature)
        {
            return Nothing("No diagnosis of the beat: it needs at least five whole beats without a gap.");
        }

        if (input.Baseline is { } well)
        {
            SignReading change = ConditionModel.AgainstBaseline.Read(
                Changes(signature.Signs, well.Signs), Changes(signature.Circumstances, well.Circumstances));
            return Sure(Findings(ConditionModel.AgainstBaseline, change, "compared with when the ram was well", true,
                input.Earlier.Count > 0 ? new Growth(signature, well, input.Earlier) : null), []);
        }

        return BySite(signature, input.RateHz * input.Hydraulics.PipePeriodS);
    }

    private static DiagnosisOutcome BySite(Signature signature, double perPeriod)
    {
        ConditionModel model = ConditionModel.AgainstSite;
        SignReading reading = model.Read(signature.Signs, signature.Circumstances);
        if (IsBeyond(perPeriod, reading.Strangeness))
        {
            return Nothing(perPeriod < LeastPerPeriod
                ? Text($"No diagnosis of the beat: only {perPeriod:0.0} samples fall into the time a wave takes up and down the drive pipe, so the end of the delivery and the echoes can't be seen. Sample faster, or give a recording of this ram when it was well (--baseline).")
                : Text($"No diagnosis of the beat: {100 * reading.Strangeness:0} % of what was measured lies outside all rams the method was tried on. Check the site file; or give a recording of this ram when it was well (--baseline)."));
        }

        List<Finding> findings = Findings(model, reading, "compared with what is usual for such a ram", false, null);
        return Sure(findings, [IsUnsure(findings) ? Undecided(findings) : NoBaseline]);
    }

    /// <summary>Whether the likeliest is only that: not likely enough, or a well ram and a fault, which exclude each other, both likely.</summary>
    internal static bool IsUnsure(IReadOnlyList<Finding> findings) =>
        findings[0].Probability < LeastToBeSure
        || (findings.Count > 1 && findings.Take(2).Any(f => f.Condition == Conditions.Healthy)
            && findings[1].Probability > LeastRival * findings[0].Probability);

    /// <summary>What can't be told apart by the site file alone.</summary>
    private static string Undecided(List<Finding> findings)
    {
        IEnumerable<string> may = findings.Where((f, i) => i == 0 || f.Probability >= LeastToMention).Select(f =>
            Text($"{ConditionText.Of(f.Condition).Name} ({100 * f.Probability:0} in 100)"));
        return $"By the site file alone these can't be told apart; the first is only the likeliest: {string.Join("; ", may)}. "
            + "A recording of this ram when it was well (--baseline) would tell.";
    }

    private const string NoBaseline =
        "Judged by the site file alone, for want of a recording of this ram when it was well (--baseline): a leaking valve can hardly be "
        + "told, nor can anything that is only beginning, and the probabilities are lower than they could be.";

    private static DiagnosisOutcome Silent(DiagnosisInput input)
    {
        DiagnosisOutcome before = input.Signature is null ? Sure([], []) : Beating(input);
        List<Finding> findings = [.. SilentRam.Judge(input).Select(f => SilentRam.WithCause(f, before.Findings))];

        // What the last beats show may have stopped it, or may not.
        findings.AddRange(before.Findings
            .Where(f => f.Condition != Conditions.Healthy && findings.TrueForAll(s => s.Condition != f.Condition))
            .Select(f => f with { Probability = 0.5 * f.Probability, Evidence = [.. f.Evidence.Select(e => "Before it stopped: " + e)] })
            .Where(f => f.Probability > LeastProbability)
            .ToList());
        return Sure(findings, before.Limits);
    }

    private static List<Finding> Findings(
        ConditionModel model, SignReading reading, string against, bool hasBaseline, Growth? growth)
    {
        var findings = new List<Finding>();
        foreach ((string condition, double probability) in model.Judge(reading))
        {
            if (findings.Count == 0 || (probability >= LeastProbability && findings.Count < MostFindings))
            {
                findings.Add(Evidence.Finding(model, condition, probability, reading, against, hasBaseline, growth));
            }
        }

        return findings;
    }

    private static Dictionary<T, double> Changes<T>(IReadOnlyDictionary<T, double> now, IReadOnlyDictionary<T, double> before)
        where T : notnull => now.Where(s => before.ContainsKey(s.Key)).ToDictionary(s => s.Key, s => s.Value - before[s.Key]);

    private static string Text(FormattableString text) => FormattableString.Invariant(text);

    private static DiagnosisOutcome Nothing(string why) => new([], [why]);

    private static DiagnosisOutcome Sure(IEnumerable<Finding> findings, IReadOnlyList<string> limits) =>
        new([.. findings.OrderByDescending(f => f.Probability)], limits);
}

/// <summary>What a diagnosis is made from.</summary>
/// <param name="Site">The ram.</param>
/// <param name="Hydraulics">What follows from its site file.</param>
/// <param name="Tally">The record's counts.</param>
/// <param name="State">Whether it beats.</param>
/// <param name="Signature">Signs of its beats; null with too few.</param>
/// <param name="Baseline">Signature of the same ram when it was well; null when none was given.</param>
/// <param name="Earlier">Recordings between the baseline and this one, oldest first.</param>
/// <param name="Curves">Some beats sample by sample.</param>
/// <param name="Beats">Number of whole beats.</param>
internal sealed record DiagnosisInput(
    Site.Model.RamSite Site, Site.SiteHydraulics Hydraulics, RecordTally Tally, StateJudge State,
    Signature? Signature, Signature? Baseline, IReadOnlyList<EarlierRecord> Earlier, IReadOnlyList<TraceCurve> Curves, int Beats)
{
    /// <summary>Samples a second [Hz].</summary>
    public double RateHz => Tally.RateHz;

    /// <summary>Body pressure under the supply head [Pa].</summary>
    public double SupplyPa => Hydraulics.PressurePa(Site.Supply.HeadM);
}
