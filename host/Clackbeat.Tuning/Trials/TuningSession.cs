using System.Text.Json.Serialization;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Tuning.Trials;

/// <summary>One afternoon at the waste valve: what is turned, what for, and the trials so far.</summary>
public sealed record TuningSession
{
    /// <summary>Trials after which the search ends by itself.</summary>
    public const int MostTrials = 8;

    /// <summary>Name of the ram.</summary>
    public required string Ram { get; init; }

    /// <summary>What is turned.</summary>
    public required Knob Knob { get; init; }

    /// <summary>What for.</summary>
    public required TuningAim Aim { get; init; }

    /// <summary>
    /// Least flow that still is enough [m³/s], for <see cref="TuningAim.GentlestPeak"/>; null for half of the most that was delivered.
    /// </summary>
    public double? EnoughM3PerS { get; init; }

    /// <summary>How it was set when the session began, in the knob's unit; null where nobody said.</summary>
    public double? Now { get; init; }

    /// <summary>Units in which the keeper thinks; settings have their own.</summary>
    public Units Units { get; init; }

    /// <summary>The trials, in the order they were made.</summary>
    public IReadOnlyList<Trial> Trials { get; init; } = [];

    /// <summary>Trials at which the ram worked.</summary>
    public IEnumerable<Trial> Working => Trials.Where(t => t.Works);

    /// <summary>What a twin foretells over the range: that of the first working trial which has one; null without.</summary>
    [JsonIgnore]
    public TwinCurve? Twin => Working.Select(t => t.Twin).FirstOrDefault(c => c is not null);

    /// <summary>Flow that counts as enough [m³/s].</summary>
    public double EnoughOrHalfM3PerS =>
        EnoughM3PerS ?? (0.5 * Working.Select(t => t.DeliveredM3PerS!.Value.Value).DefaultIfEmpty(0).Max());

    /// <summary>The session with one trial more.</summary>
    /// <exception cref="InputException">The setting lies outside the knob's range.</exception>
    public TuningSession With(Trial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        Knob.Within(trial.Setting);
        return this with { Trials = [.. Trials, trial] };
    }

    /// <summary>The session without one of its trials.</summary>
    /// <param name="index">Which, from 0.</param>
    public TuningSession Without(int index) => this with { Trials = [.. Trials.Where((_, i) => i != index)] };

    /// <summary>Whether a trial may be chosen: it works, the pipe bears it, and it delivers enough where that is asked for.</summary>
    public bool MayBeChosen(Trial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        return trial.Works && trial.WithinRating
            && (Aim != TuningAim.GentlestPeak || trial.DeliveredM3PerS!.Value.Value >= EnoughOrHalfM3PerS);
    }

    /// <summary>How good a trial is for the aim: the natural logarithm of the figure, so that differences are shares; more is better.</summary>
    public double Score(Trial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        return Aim switch
        {
            TuningAim.MostDelivered => Math.Log(trial.DeliveredM3PerS!.Value.Value),
            TuningAim.LeastWasted => Math.Log(trial.Efficiency!.Value.Value),
            _ => -Math.Log(trial.PeakPa!.Value.Value),
        };
    }

    /// <summary>The same of a stretch.</summary>
    public double Score(Stretch stretch) => Aim switch
    {
        TuningAim.MostDelivered => Math.Log(stretch.DeliveredM3PerS),
        TuningAim.LeastWasted => Math.Log(stretch.Efficiency),
        _ => -Math.Log(stretch.PeakPa),
    };
}
