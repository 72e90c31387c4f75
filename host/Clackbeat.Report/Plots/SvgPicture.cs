using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Clackbeat.Report.Plots;

/// <summary>Draws a plot as SVG fit to stand inside a page: colours the page can shade, ids that don't meet, few digits.</summary>
internal static partial class SvgPicture
{
    /// <summary>The picture as SVG markup.</summary>
    /// <param name="drawing">What to draw.</param>
    /// <param name="frame">At what size.</param>
    /// <param name="kind">Class of the outer element, also part of its ids.</param>
    public static string Of(Drawing drawing, Frame frame, string kind)
    {
        Frame size = drawing.In(frame);
        using ScottPlot.Plot plot = drawing.Make(size);
        var svg = XElement.Parse(plot.GetSvgXml(size.Width, size.Height));
        string prefix = $"{drawing.Id}-{kind}-";
        XNamespace ns = svg.Name.Namespace;
        svg.Elements(ns + "rect").FirstOrDefault()?.Remove();
        foreach (XElement element in svg.Descendants().ToList())
        {
            Tidy(element, prefix);
        }

        svg.RemoveAttributes();
        svg.Add(
            new XAttribute("class", kind),
            new XAttribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {size.Width} {size.Height}")),
            new XAttribute("role", "img"),
            new XAttribute("aria-labelledby", prefix + "title " + prefix + "text"));
        svg.AddFirst(
            new XElement(ns + "title", new XAttribute("id", prefix + "title"), drawing.Title),
            new XElement(ns + "desc", new XAttribute("id", prefix + "text"), drawing.Alt));
        // Inside HTML the parser knows the namespace by itself.
        return svg.ToString(SaveOptions.DisableFormatting).Replace(" xmlns=\"http://www.w3.org/2000/svg\"", "", StringComparison.Ordinal);
    }

    private static void Tidy(XElement element, string prefix)
    {
        if (element.Attribute("id") is { } id)
        {
            id.Value = prefix + id.Value;
        }

        if (element.Attribute("clip-path") is { } clip)
        {
            clip.Value = clip.Value.Replace("url(#", "url(#" + prefix, StringComparison.Ordinal);
        }

        var classes = new List<string>();
        Name(element, "fill", "f-", classes);
        Name(element, "stroke", "s-", classes);
        if (classes.Count > 0)
        {
            element.SetAttributeValue("class", string.Join(' ', classes));
        }

        element.SetAttributeValue("stroke-miterlimit", null);
        foreach (string name in (string[])["d", "x", "y", "width", "height", "transform", "points", "fill-opacity", "stroke-opacity"])
        {
            if (element.Attribute(name) is { } numbers)
            {
                string format = name.EndsWith("opacity", StringComparison.Ordinal) ? "0.##" : "0.#";
                numbers.Value = LongNumber().Replace(numbers.Value, m => double.Parse(m.Value, CultureInfo.InvariantCulture).ToString(format, CultureInfo.InvariantCulture));
            }
        }

        if (element.Name.LocalName == "text")
        {
            TidyText(element);
        }
    }

    private static void Name(XElement element, string attribute, string prefix, List<string> classes)
    {
        if (element.Attribute(attribute) is { } color && Ink.Names.TryGetValue(color.Value, out string? name))
        {
            classes.Add(prefix + name);
        }
    }

    // The drawing library places every letter by itself; the browser does that better when it knows only the start.
    private static void TidyText(XElement text)
    {
        text.Value = DashForMinus().Replace(text.Value.Trim(), "\u2212");
        text.SetAttributeValue("font-family", null);
        foreach (string axis in (string[])["x", "y"])
        {
            string? first = text.Attribute(axis)?.Value.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).FirstOrDefault();
            text.SetAttributeValue(axis, first);
        }
    }

    [GeneratedRegex(@"(?<!\S)\u2013(?=\d)")]
    private static partial Regex DashForMinus();

    [GeneratedRegex(@"-?\d+\.\d{2,}(?:[eE][-+]?\d+)?|-?\d+(?:\.\d+)?[eE][-+]?\d+")]
    private static partial Regex LongNumber();
}
