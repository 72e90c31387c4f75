using System.Globalization;
using Clackbeat.Report.Html;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Watch.Seasons;

/// <summary>The beat of two days or bursts, part by part: the median and the range of nine beats out of ten, as figures and as bars on one scale.</summary>
/// <param name="units">The reader's units.</param>
internal sealed class BeatBlock(Units units)
{
    private const double Wide = 200;

    /// <summary>Two days side by side.</summary>
    /// <param name="then">The earlier.</param>
    /// <param name="now">The later.</param>
    public Markup Write((DateOnly Day, IReadOnlyDictionary<BeatPart, BeatSpread> Beats) then, (DateOnly Day, IReadOnlyDictionary<BeatPart, BeatSpread> Beats) now) =>
        Write(SeasonText.Day(then.Day), then.Beats, SeasonText.Day(now.Day), now.Beats);

    /// <summary>Two sets of beats side by side.</summary>
    /// <param name="then">Name of the first.</param>
    /// <param name="before">Its beats.</param>
    /// <param name="now">Name of the second.</param>
    /// <param name="after">Its beats.</param>
    public Markup Write(string then, IReadOnlyDictionary<BeatPart, BeatSpread> before, string now, IReadOnlyDictionary<BeatPart, BeatSpread> after)
    {
        BeatPart[] parts = [.. Enum.GetValues<BeatPart>().Where(p => before.ContainsKey(p) && after.ContainsKey(p))];
        return parts.Length == 0
            ? Markup.Of($"<p>{Phrases.Say("season-page.no-beats")}</p>")
            : Markup.Of(
                $"""
                {SeasonBlocks.Table(
                    [Phrases.Say("season-page.part-of-beat"), then, now, Phrases.Say("season-page.on-one-scale")],
                    parts.Select(p => (IEnumerable<Markup>)[Markup.Of($"{Name(p)}"), Cell(p, before[p]), Cell(p, after[p]), Bars(before[p], after[p])]))}
                <p class="small">{Phrases.Say("season-page.beat-how", ("before", before[parts[0]].Beats), ("after", after[parts[0]].Beats))}</p>
                """);
    }

    private Markup Cell(BeatPart part, BeatSpread spread) => Markup.Of(
        $"{Phrases.Format(Kind(part), spread.Median, units)} <span class=\"small\">({Phrases.FormatRange(Kind(part), spread.Low, spread.High, units, 3)})</span>");

    // The table beside it tells the same in figures.
    private static Markup Bars(BeatSpread before, BeatSpread after)
    {
        (double low, double high) = (Math.Min(before.Low, after.Low), Math.Max(before.High, after.High));
        double X(double value) => high > low ? 6 + ((value - low) / (high - low) * (Wide - 12)) : Wide / 2;
        string Bar(BeatSpread spread, int y, string kind) => string.Create(
            CultureInfo.InvariantCulture,
            $"<path class=\"{kind}\" d=\"M{X(spread.Low):0.#} {y}H{X(spread.High):0.#}\"/><circle class=\"{kind}\" cx=\"{X(spread.Median):0.#}\" cy=\"{y}\" r=\"4.5\"/>");
        return Markup.Trusted(string.Create(CultureInfo.InvariantCulture, $"<svg class=\"bars\" viewBox=\"0 0 {Wide} 32\" aria-hidden=\"true\">{Bar(before, 9, "then")}{Bar(after, 23, "now")}</svg>"));
    }

    private static QuantityKind Kind(BeatPart part) => part switch
    {
        BeatPart.Interval => QuantityKind.Duration,
        BeatPart.ClosingVelocity => QuantityKind.Velocity,
        BeatPart.Delivered or BeatPart.Waste => QuantityKind.Volume,
        _ => QuantityKind.Pressure,
    };

    private static string Name(BeatPart part) => Catalogue.Current.Say(part switch
    {
        BeatPart.Interval => "season-page.beat-interval",
        BeatPart.Peak => "season-page.beat-peak",
        BeatPart.Delivery => "trend.delivery-pressure",
        BeatPart.Suction => "season-page.beat-suction",
        BeatPart.ClosingVelocity => "trend.closing-velocity",
        BeatPart.Delivered => "season-page.beat-delivered",
        _ => "season-page.beat-waste",
    });
}
