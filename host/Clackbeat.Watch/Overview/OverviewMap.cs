using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using Clackbeat.Season.Overview;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using UnitsNet;

namespace Clackbeat.Watch.Overview;

/// <summary>
/// A map of the rams without any tiles: positions on an equirectangular projection at their mean latitude, true to scale within
/// a region, with a scale bar. Shapes tell the urgency as well as colours do.
/// </summary>
internal static class OverviewMap
{
    private const double Width = 640;
    private const double Margin = 36;
    private const double HighestShape = 0.8;

    // A lone ram, or several in one yard, are drawn as if a kilometre apart.
    private const double LeastSpanM = 1000;

    private static readonly int[] Steps = [5, 2, 1];

    // Mean radius of the earth, IUGG.
    private const double EarthM = 6_371_008.8;

    // Names of more would lie on one another.
    private const int MostNames = 12;

    /// <summary>The map as SVG; empty where no ram has a position.</summary>
    /// <param name="visits">The rams, the most urgent first.</param>
    /// <param name="units">Units of the scale bar.</param>
    /// <param name="encoder">Encodes names.</param>
    public static string Of(IReadOnlyList<RamVisit> visits, Units units, HtmlEncoder encoder)
    {
        (RamVisit Visit, Position At)[] placed = [.. visits.Where(v => v.Entry?.Place is not null).Select(v => (v, v.Entry!.Place!.Value))];
        if (placed.Length == 0)
        {
            return "";
        }

        double meanLatitude = placed.Average(p => p.At.LatitudeDeg);
        double EastM(Position at) => Radians(at.LongitudeDeg) * EarthM * Math.Cos(Radians(meanLatitude));
        double NorthM(Position at) => Radians(at.LatitudeDeg) * EarthM;
        (double west, double east) = (placed.Min(p => EastM(p.At)), placed.Max(p => EastM(p.At)));
        (double south, double north) = (placed.Min(p => NorthM(p.At)), placed.Max(p => NorthM(p.At)));
        double spanM = Math.Max(LeastSpanM, Math.Max(east - west, (north - south) / HighestShape));
        double perM = (Width - (2 * Margin)) / spanM;
        double height = (2 * Margin) + Math.Max(120, (north - south) * perM);
        double midX = 0.5 * (east + west);
        double midY = 0.5 * (north + south);
        var svg = new StringBuilder();
        string told = Phrases.Say("overview.map-told", ("rams", placed.Length), ("urgent", Urgent(placed)));
        svg.Append(CultureInfo.InvariantCulture, $"<svg class=\"map\" viewBox=\"0 0 {Width} {height:0}\" role=\"img\" aria-label=\"{encoder.Encode(told)}\">");
        svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"sea\" width=\"{Width}\" height=\"{height:0}\" rx=\"14\"/>");

        // The most urgent are drawn last, so that none is hidden.
        for (int i = placed.Length - 1; i >= 0; i--)
        {
            (RamVisit visit, Position at) = placed[i];
            (double x, double y) = ((0.5 * Width) + ((EastM(at) - midX) * perM), (0.5 * height) - ((NorthM(at) - midY) * perM));
            svg.Append(CultureInfo.InvariantCulture, $"<g transform=\"translate({x:0.0} {y:0.0})\"><title>{encoder.Encode(visit.Summary.Ram)}</title>{Mark(visit.Urgency)}");
            if (i < MostNames)
            {
                bool isRight = x < 0.65 * Width;
                svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{(isRight ? 12 : -12)}\" y=\"5\" text-anchor=\"{(isRight ? "start" : "end")}\">{encoder.Encode(visit.Summary.Ram)}</text>");
            }

            svg.Append("</g>");
        }

        return svg.Append(ScaleBar(perM, height, units, encoder))
            .Append(CultureInfo.InvariantCulture, $"<path class=\"north\" d=\"M{Width - 24} 34V14m-5 7 5-8 5 8\"/><text x=\"{Width - 24}\" y=\"50\" text-anchor=\"middle\">{encoder.Encode(Phrases.Say("overview.north"))}</text>")
            .Append("</svg>").ToString();
    }

    /// <summary>The sign of an urgency: a triangle, a diamond, a disc.</summary>
    public static string Mark(VisitUrgency urgency) => urgency switch
    {
        VisitUrgency.Now => "<path class=\"mark now\" d=\"M0-9 9 7H-9Z\"/>",
        VisitUrgency.Soon => "<path class=\"mark soon\" d=\"M0-8 8 0 0 8-8 0Z\"/>",
        _ => "<circle class=\"mark well\" r=\"6\"/>",
    };

    private static string Urgent(IEnumerable<(RamVisit Visit, Position At)> placed)
    {
        string rams = string.Join(", ", placed.Where(p => p.Visit.Urgency == VisitUrgency.Now).Select(p => p.Visit.Summary.Ram));
        return rams.Length > 0 ? Phrases.Say("overview.map-urgent", ("rams", rams)) : "";
    }

    private static string ScaleBar(double perM, double height, Units units, HtmlEncoder encoder)
    {
        double unitM = units == Units.Us ? Length.FromMiles(1).Meters : 1000;
        double most = 0.3 * Width / perM / unitM;
        double decade = Math.Pow(10, Math.Floor(Math.Log10(most)));
        double length = Steps.Select(step => step * decade).First(l => l <= most);
        double wide = length * unitM * perM;
        string words = Phrases.Say(units == Units.Us ? "overview.map-miles" : "overview.map-kilometres", ("length", length));
        return string.Create(
            CultureInfo.InvariantCulture,
            $"<path class=\"scale\" d=\"M14 {height - 20:0.0}v6h{wide:0.0}v-6\"/><text x=\"14\" y=\"{height - 24:0.0}\">{encoder.Encode(words)}</text>");
    }

    private static double Radians(double degrees) => degrees * Math.PI / 180;
}
