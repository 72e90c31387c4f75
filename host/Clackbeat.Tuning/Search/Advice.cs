using Clackbeat.Tuning.Trials;

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

    /// <summary>The end: the ram ran at no setting.</summary>
    NeverRan,
}

/// <summary>What to do next.</summary>
/// <param name="Setting">Setting to try next, in the knob's unit; null when the search is at its end.</param>
/// <param name="Reason">The reason.</param>
/// <param name="Best">The best trial so far that may be chosen; null when there is none.</param>
/// <param name="BestSpread">Standard uncertainty of how it compares with the others, as a share.</param>
/// <param name="Gain">What the next trial may be expected to bring over the best one, as a share; null without a proposal.</param>
public sealed record Advice(double? Setting, AdviceReason Reason, Trial? Best, double BestSpread, double? Gain)
{
    /// <summary>The reason, in a sentence.</summary>
    public string Why => Reason switch
    {
        AdviceReason.AsItIs => "Begin with the ram as it is, so that all else is measured against it.",
        AdviceReason.ThisSideFirst => "Look to this side first, where nothing is known yet.",
        AdviceReason.PromisesMost => "Of all settings that may be tried, this one promises most.",
        AdviceReason.MoreWater => "No trial delivers enough so far; this one should deliver more.",
        AdviceReason.LessHard => "Every trial hits harder than the pipe bears; this one should hit less hard.",
        AdviceReason.Elsewhere => "The ram didn't run at the settings so far; try another part of the range.",
        AdviceReason.NothingMore => "No other setting promises half a per cent more.",
        AdviceReason.AllTrialsMade => $"{TuningSession.MostTrials} trials are made; more would bring little.",
        AdviceReason.NoneLeft => "No setting is left that may be tried within the pipe's rating and the settings that run.",
        _ => "At no setting the ram ran long enough. Look for what is wrong with it before tuning.",
    };
}
