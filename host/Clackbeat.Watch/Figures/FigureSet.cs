using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Watch.Figures;

/// <summary>A number ready to be read.</summary>
/// <param name="Value">The number.</param>
/// <param name="Margin">Its expanded uncertainty (k = 2); empty where there is none.</param>
/// <param name="Unit">Its unit.</param>
internal sealed record Reading(string Value, string Margin, string Unit)
{
    /// <summary>True where it is an upper bound: the page says "at most".</summary>
    public bool AtMost { get; init; }

    /// <summary>A figure in a system of units.</summary>
    public static Reading Of(QuantityKind kind, Figure figure, Units units)
    {
        QuantityParts parts = QuantityFormat.Parts(kind, figure.Value, figure.U > 0 ? figure.U : 0, units);

        // What beats is a number a minute here, not hertz: its name says so.
        string unit = kind == QuantityKind.Frequency ? "" : parts.Unit;
        return new Reading(parts.Value, parts.Uncertainty, unit) { AtMost = figure.IsUpperBound };
    }
}

/// <summary>How a figure is to be taken; the page gives each a colour and a shape.</summary>
internal enum Tone
{
    /// <summary>Not judged.</summary>
    None,

    /// <summary>As it should be.</summary>
    Good,

    /// <summary>Worth a look.</summary>
    Near,

    /// <summary>Act.</summary>
    Bad,
}

/// <summary>One big figure of the page.</summary>
/// <param name="Id">Which.</param>
/// <param name="Metric">In metric units; null where it was withheld.</param>
/// <param name="Us">In US units.</param>
/// <param name="Tone">How to take it.</param>
/// <param name="Note">A word of the page's words: why it was withheld, or how it compares.</param>
/// <param name="ChangePercent">Change since the baseline, where that is certain [%].</param>
internal sealed record Tile(string Id, Reading? Metric, Reading? Us, Tone Tone, string? Note, double? ChangePercent);

/// <summary>The pipe against its rating [Pa gauge].</summary>
internal sealed record PipeBar(
    string Verdict, string FatigueVerdict, double? RestPa, double? DeliveryPa, double? PeakPa, double? PeakUPa, double? AllowablePa, double? RatedPa, double? Margin);

/// <summary>
/// A condition that the beat shows, its evidence in each of the page's languages; without a probability where it is what was just seen to happen.
/// </summary>
internal sealed record LiveFinding(
    string Code, double? Probability, IReadOnlyList<FeatureWord> Features, IReadOnlyDictionary<string, IReadOnlyList<string>> Sentences, IReadOnlyList<string> Parts);

/// <summary>A change of the beat: which, and how much in its own measure.</summary>
internal sealed record FeatureWord(string Feature, double Change);

/// <summary>All that is made from a window of samples.</summary>
internal sealed record FigureSet
{
    /// <summary>Whole beats in the window.</summary>
    public required int Beats { get; init; }

    /// <summary>Length of the window [s].</summary>
    public required double SpanS { get; init; }

    /// <summary>Samples a second in the window [Hz].</summary>
    public required double RateHz { get; init; }

    /// <summary>Gaps in the window.</summary>
    public required int Gaps { get; init; }

    /// <summary>Samples of the window at an end of the sensor's range.</summary>
    public required long ClippedSamples { get; init; }

    /// <summary>The figures are of the ram before it stopped.</summary>
    public bool IsBefore { get; init; }

    /// <summary>Judged against a record of this ram when it was well.</summary>
    public required bool HasBaseline { get; init; }

    public required IReadOnlyList<Tile> Tiles { get; init; }

    public required PipeBar Pipe { get; init; }

    /// <summary>What matters most, by the report's own rule.</summary>
    public required Standing Standing { get; init; }

    /// <summary>What to do now, the most urgent first: ends of keys of the page's words, by the report's own rule.</summary>
    public required IReadOnlyList<string> ToDo { get; init; }

    public required IReadOnlyList<LiveFinding> Findings { get; init; }

    /// <summary>Why nothing was found, where nothing could be: a word of the page's words.</summary>
    public string? NoFinding { get; init; }
}
