using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.Signal.HandTests;

/// <summary>How likely a cause is beside the others.</summary>
/// <param name="Condition">Condition code.</param>
/// <param name="Probability">0 to 1; those of all causes add up to one.</param>
public sealed record CauseOdds(string Condition, double Probability);

/// <summary>A test that was made.</summary>
/// <param name="Test">Code of the test.</param>
/// <param name="Verdict">Code of what it showed.</param>
public sealed record CheckStep(string Test, string Verdict);

/// <summary>
/// The tests by hand one after the other: which causes a record leaves close, which test is the cheapest that tells them apart, and what is
/// left after each. One cause is looked for, so the probabilities are scaled to add up to one. Each verdict multiplies them by how often the
/// rams of the study with that cause gave it (Bayes' rule). It ends when one cause is three times as likely as any other, or no test is left.
/// </summary>
public sealed class CheckSequence
{
    // As for "sure": nearer than a factor of three two causes are not told apart.
    private const double Apart = 3;

    // A leaking main whose plateau stands over its outlet is found as a leaking delivery valve: 2 of 22 such mains and 15 of 23 such valves
    // were on rams 10000 to 10029, see docs/diagnosis.md.
    private const double MainBesideValve = (2.0 / 22) / (15.0 / 23);

    private CheckSequence(IEnumerable<CauseOdds> causes, IReadOnlyList<CheckStep> steps)
    {
        CauseOdds[] all = [.. causes.Where(c => c.Probability > 0)];
        double sum = all.Sum(c => c.Probability);
        Causes = [.. all.Select(c => c with { Probability = c.Probability / sum }).OrderByDescending(c => c.Probability)];
        Steps = steps;
    }

    /// <summary>The causes, the likeliest first.</summary>
    public IReadOnlyList<CauseOdds> Causes { get; }

    /// <summary>The tests that were made.</summary>
    public IReadOnlyList<CheckStep> Steps { get; }

    /// <summary>The likeliest cause, and those less than three times less likely.</summary>
    public IReadOnlyList<CauseOdds> Close => [.. Causes.Where(c => Apart * c.Probability > Causes[0].Probability)];

    /// <summary>One cause is three times as likely as any other.</summary>
    public bool IsDecided => Close.Count == 1;

    /// <summary>
    /// The cheapest test that tells the likeliest cause from another one close to it; null where none is close, or no test is left.
    /// A leaking delivery valve always asks for its test, since a small leak of the main looks the same.
    /// </summary>
    public HandTest? Next
    {
        get
        {
            IEnumerable<HandTest> left = HandTest.All.Where(t => Steps.All(s => s.Test != t.Code));
            string first = Causes[0].Condition;
            return IsDecided
                ? first == Conditions.DeliveryValveLeaking && Steps.Count == 0 ? HandTest.Of(HandTest.Shut) : null
                : left.FirstOrDefault(t => Close.Skip(1).Any(c => TestLikelihoods.Tells(t.Code, first, c.Condition)));
        }
    }

    /// <summary>Begins with what a record left open.</summary>
    /// <param name="record">The record.</param>
    /// <returns>Null where the record judged no beat: a silent ram, too few beats, a sensor not to be believed.</returns>
    public static CheckSequence? Begin(RamAnalysis record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var found = record.Diagnosis.Select(f => new CauseOdds(f.Condition, f.Probability)).ToList();
        found.AddRange(record.Judged.Where(j => found.TrueForAll(f => f.Condition != j.Condition)).Select(j => new CauseOdds(j.Condition, j.Probability)));
        return Begin(found);
    }

    /// <summary>Begins with the probabilities of conditions; they need not add up to one.</summary>
    /// <param name="found">The conditions.</param>
    /// <returns>Null where none of them is one of a ram that beats.</returns>
    public static CheckSequence? Begin(IReadOnlyList<CauseOdds> found)
    {
        List<CauseOdds> causes = [.. found.Where(c => Conditions.Beating.Contains(c.Condition) && c.Probability > 0)];
        if (causes.Count == 0 || found.MaxBy(c => c.Probability)!.Condition is Conditions.StoppedShut or Conditions.StoppedOpen or Conditions.SensorFault)
        {
            return null;
        }

        if (causes.Find(c => c.Condition == Conditions.DeliveryValveLeaking) is { } valve && causes.TrueForAll(c => c.Condition != Conditions.DeliveryMainLeaking))
        {
            causes.Add(new CauseOdds(Conditions.DeliveryMainLeaking, MainBesideValve * valve.Probability));
        }

        return new CheckSequence(causes, []);
    }

    /// <summary>What is left after a test.</summary>
    /// <param name="step">The test and its verdict; one that was unclear or made before changes nothing.</param>
    public CheckSequence After(CheckStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        // The same test made again is no independent evidence.
        return step.Verdict == HandReading.Unclear || Steps.Any(s => s.Test == step.Test)
            ? this
            : new CheckSequence(Causes.Select(c => c with { Probability = c.Probability * TestLikelihoods.Of(step.Test, c.Condition, step.Verdict) }), [.. Steps, step]);
    }
}
