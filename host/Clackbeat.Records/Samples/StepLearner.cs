namespace Clackbeat.Records.Samples;

/// <summary>
/// Learns the usual step between samples: the median of the first ones, which a few gaps or repeats don't move. The samples wait
/// until it is known. Every analysis, export and live page uses this one rule.
/// </summary>
public sealed class StepLearner
{
    // Two seconds, so that a live page needn't wait longer; but not so few steps that a burst of losses is their median, and
    // not more than settle a median to the jitter's 1/√n, 2 % of it, however fast the samples come.
    private const double LearnS = 2;
    private const int LeastSteps = 64;
    private const int MostSteps = 2047;

    private List<Sample>? _waiting = new(LeastSteps + 1);

    /// <summary>The usual step [s]; 0 while unknown, or where there never were two samples.</summary>
    public double StepS { get; private set; }

    /// <summary>Whether it is settled; samples then wait no longer.</summary>
    public bool IsKnown => _waiting is null;

    /// <summary>Takes a sample that waits; times rise.</summary>
    /// <returns>The samples that waited, once the step is known; null while it isn't.</returns>
    public IReadOnlyList<Sample>? Add(in Sample sample)
    {
        List<Sample> waiting = _waiting ?? throw new InvalidOperationException("The step is known; nothing waits any more.");
        waiting.Add(sample);
        int steps = waiting.Count - 1;
        bool enough = steps >= MostSteps || (steps >= LeastSteps && sample.TimeS - waiting[0].TimeS >= LearnS);
        return enough ? Finish() : null;
    }

    /// <summary>Settles it with the samples there are.</summary>
    /// <returns>Those that waited; empty when it was known already.</returns>
    public IReadOnlyList<Sample> Finish()
    {
        if (_waiting is not { } waiting)
        {
            return [];
        }

        _waiting = null;
        if (waiting.Count > 1)
        {
            double[] steps = [.. waiting.Zip(waiting.Skip(1), (a, b) => b.TimeS - a.TimeS)];
            Array.Sort(steps);
            StepS = steps[steps.Length / 2];
        }

        return waiting;
    }
}
