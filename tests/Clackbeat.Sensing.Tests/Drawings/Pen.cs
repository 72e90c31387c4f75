using System.Globalization;
using System.Security;
using System.Text;

namespace Clackbeat.Sensing.Tests.Drawings;

/// <summary>Writes lines, boxes, words and the symbols of parts as SVG.</summary>
internal sealed class Pen
{
    private const string Ink = "#1b2a33";
    private readonly StringBuilder _svg = new();

    public override string ToString() => _svg.ToString();

    public void Line(double x1, double y1, double x2, double y2, double width = 2) =>
        Add($"<path d=\"M{x1} {y1}L{x2} {y2}\" stroke-width=\"{width}\"/>");

    public void Dot(double x, double y) => Add($"<circle cx=\"{x}\" cy=\"{y}\" r=\"4\" fill=\"{Ink}\" stroke=\"none\"/>");

    public void Box(double x, double y, double width, double height, string fill) =>
        Add($"<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" rx=\"6\" fill=\"{fill}\"/>");

    public void Words(double x, double y, string words, string anchor = "start", int size = 15, bool bold = false)
    {
        string weight = bold ? " font-weight=\"bold\"" : "";
        string safe = SecurityElement.Escape(words);
        Add($"<text x=\"{x}\" y=\"{y}\" text-anchor=\"{anchor}\" fill=\"{Ink}\" stroke=\"none\" font-size=\"{size}\"{weight}>{safe}</text>");
    }

    public void Ground(double x, double y) =>
        Add($"<path d=\"M{x} {y}v8M{x - 14} {y + 8}h28M{x - 9} {y + 14}h18M{x - 4} {y + 20}h8\"/>");

    /// <summary>A part that lies in a line, its ends at x ± 34.</summary>
    public void Lying(double x, double y, Part part)
    {
        switch (part.Kind)
        {
            case "fuse":
                Plain(x - 30, y - 9, 60, 18);
                Line(x - 34, y, x + 34, y);
                break;
            case "diode":
                Line(x - 34, y, x + 34, y);
                Add($"<path d=\"M{x - 12} {y - 11}l22 11l-22 11zM{x + 10} {y - 11}v22\" fill=\"#ffffff\"/>");
                break;
            case "switch":
            case "converter":
                Plain(x - 34, y - 17, 68, 34);
                Words(x, y + 5, part.Ref, "middle", 14, bold: true);
                break;
            default:
                Plain(x - 30, y - 9, 60, 18);
                Line(x - 34, y, x - 30, y);
                Line(x + 30, y, x + 34, y);
                break;
        }
    }

    /// <summary>A part that hangs from a line at y, its lower end at y + 72.</summary>
    public void Hanging(double x, double y, Part part, string end)
    {
        Dot(x, y);
        Line(x, y, x, y + 18);
        switch (part.Kind)
        {
            case "capacitor":
                Line(x, y + 18, x, y + 38);
                Add($"<path d=\"M{x - 14} {y + 38}h28M{x - 14} {y + 48}h28\" stroke-width=\"3\"/>");
                Line(x, y + 48, x, y + 72);
                break;
            case "suppressor":
                Line(x, y + 18, x, y + 34);
                Add($"<path d=\"M{x - 11} {y + 54}h22l-11 -20zM{x - 13} {y + 30}q4 4 7 4h12q4 0 7 4\" fill=\"#ffffff\"/>");
                Line(x, y + 54, x, y + 72);
                break;
            case "clamp":
                Line(x, y + 18, x, y + 50);
                Add($"<path d=\"M{x - 10} {y + 66}h20l-10 -16zM{x - 10} {y + 50}h20\" fill=\"#ffffff\"/>");
                Line(x, y + 66, x, y + 72);
                Line(x, y, x, y - 10);
                Add($"<path d=\"M{x - 10} {y - 10}h20l-10 -16zM{x - 10} {y - 26}h20\" fill=\"#ffffff\"/>");
                Line(x, y - 26, x, y - 34);
                Words(x, y - 38, "3.3 V", "middle", 12);
                break;
            default:
                Plain(x - 9, y + 18, 18, 44);
                Line(x, y + 62, x, y + 72);
                break;
        }

        if (end == "GND")
        {
            Ground(x, y + 72);
        }
        else
        {
            Words(x, y + 86, end, "middle", 12);
        }
    }

    private void Plain(double x, double y, double width, double height) =>
        Add($"<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" fill=\"#ffffff\"/>");

    private void Add(FormattableString line) => _svg.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
