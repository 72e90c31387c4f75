using Clackbeat.Tuning.Trials;
using Clackbeat.Words;

namespace Clackbeat.Tuning.Search;

/// <summary>Why something is advised.</summary>
public enum AdviceReason
{
    /// <summary>Nothing was tried yet.</summary>
    AsItIs,

    /// <summary>To this side nothing is known yet.</summary>
    ThisSideFirst,

    /// <summary>Of all settings it promises most.</summary>
    PromisesMost,

    /// <summary>The twin of the first trial expects most of it.</summary>
    TwinExpectsMost,

    /// <summary>No trial delivers enough; this one should deliver more.</summary>
    MoreWater,

    /// <summary>Every trial hits harder than the pipe bears; this one should hit less hard.</summary>
    LessHard,

    /// <summary>The ram didn't run so far; try elsewhere.</summary>
    Elsewhere,

    /// <summary>The end: nothing promises more.</summary>
    NothingMore,

    /// <summary>The end: all trials are made.</summary>
    AllTrialsMade,

    /// <summary>The end: no setting is left that may be tried.</summary>
    NoneLeft,

    /// <summary>The end: every setting left lies too near to one that was tried.</summary>
    NoneToTell,

    /// <summary>The end: the ram ran at no setting.</summary>
    NeverRan,
}

/// <summary>An end of the range of settings.</summary>
public enum RangeEnd
{
    /// <summary>None.</summary>
    None,

    /// <summary>The lowest setting.</summary>
    Lowest,

    /// <summary>The highest setting.</summary>
    Highest,
}

/// <summary>What to do next.</summary>
/// <param name="Setting">Setting to try next, in the knob's unit; null when the search is at its end.</param>
/// <param name="Reason">The reason.</param>
/// <param name="Best">
/// The trial to keep to so far, of those that may be chosen: of all that can't be told from the best one, the one that wastes
/// least; null when there is none.
/// </param>
/// <param name="BestUncertainty">Standard uncertainty of how it compares with the others, as a share.</param>
/// <param name="Gain">What the next trial may be expected to bring over the best one, as a share; null without a proposal.</param>
public sealed record Advice(double? Setting, AdviceReason Reason, Trial? Best, double BestUncertainty, double? Gain)
{
    /// <summary>Trials that can't be told from <see cref="Best"/>, in the order they were made.</summary>
    public IReadOnlyList<Trial> Alike { get; init; } = [];

    /// <summary><see cref="Best"/> was chosen among its likes because it wastes less.</summary>
    public bool WastesLess { get; init; }

    /// <summary>The end of the range at which <see cref="Best"/> lies: a wider range may hold a better setting.</summary>
    public RangeEnd BestAtEnd { get; init; }

    /// <summary>The reason, in a sentence.</summary>
    public string Why => Reason switch
    {
        AdviceReason.AsItIs => Phrases.Say("tuning.begin-ram-all-other-trials"),
        AdviceReason.ThisSideFirst => Phrases.Say("tuning.try-side-first-where-nothing"),
        AdviceReason.PromisesMost => Phrases.Say("tuning.all-allowed-settings-one-promises"),
        AdviceReason.TwinExpectsMost => Phrases.Say("tuning.twin-expects-most"),
        AdviceReason.MoreWater => Phrases.Say("tuning.no-trial-delivers-enough-far"),
        AdviceReason.LessHard => Phrases.Say("tuning.every-trial-over-pipes-limit"),
        AdviceReason.Elsewhere => Phrases.Say("tuning.ram-didnt-run-settings-far"),
        AdviceReason.NothingMore => Phrases.Say("tuning.no-other-setting-promises-half"),
        AdviceReason.AllTrialsMade => Phrases.Say("tuning.trials-made-more-would-bring", ("count", TuningSession.MostTrials)),
        AdviceReason.NoneToTell => Phrases.Say("tuning.every-setting-left-too-close"),
        AdviceReason.NoneLeft => Phrases.Say("tuning.no-setting-left-stays-within"),
        _ => Phrases.Say("tuning.ram-did-run-long-enough"),
    };
}
