using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Search;

/// <summary>What to do next.</summary>
/// <param name="Setting">Setting to try next, in the knob's unit; null when the search is at its end.</param>
/// <param name="Why">The reason, in a sentence.</param>
/// <param name="Best">The best trial so far that may be chosen; null when there is none.</param>
/// <param name="BestSpread">Standard uncertainty of how it compares with the others, as a share.</param>
/// <param name="Gain">What the next trial may be expected to bring over the best one, as a share; null without a proposal.</param>
public sealed record Advice(double? Setting, string Why, Trial? Best, double BestSpread, double? Gain);
