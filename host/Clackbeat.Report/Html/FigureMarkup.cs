using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;

namespace Clackbeat.Report.Html;

/// <summary>Pictures within a page, each drawn for a wide screen and for a narrow one; <c>pictures.css</c> shows one of the two and colours it.</summary>
public static class FigureMarkup
{
    // A page with many of them has room for flat ones.
    private const double Flat = 0.62;

    /// <summary>A figure of a ram over days to years.</summary>
    /// <param name="id">Short name, unique on the page.</param>
    /// <param name="title">What it shows.</param>
    /// <param name="told">What a reader who can't see it should learn from it.</param>
    /// <param name="label">The figure with its unit.</param>
    /// <param name="days">The days, oldest first; two at least.</param>
    /// <param name="marks">Marks.</param>
    public static Markup Trend(string id, string title, string told, string label, IReadOnlyList<PlottedDay> days, IReadOnlyList<PlottedMark> marks) =>
        Of(new Drawing(id, title, told, Rich.Empty, frame => TrendPlot.Draw(label, days, marks, frame)) { Height = Flat });

    internal static Markup Of(Drawing drawing) => Markup.Of(
        $"""
        <figure id="plot-{drawing.Id}">
        <h3>{drawing.Title}</h3>
        {Markup.Trusted(SvgPicture.Of(drawing, Frame.Wide, "wide"))}
        {Markup.Trusted(SvgPicture.Of(drawing, Frame.Narrow, "narrow"))}
        {(drawing.Caption.Runs.Count == 0 ? Markup.Empty : Markup.Of($"<figcaption>{drawing.Caption}</figcaption>"))}
        </figure>

        """);
}
