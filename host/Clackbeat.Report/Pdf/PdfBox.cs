using Clackbeat.Report.Content;
using Clackbeat.Report.Wording;
using PdfSharp.Drawing;

namespace Clackbeat.Report.Pdf;

/// <summary>Sets what must not be overlooked into a box of its tone: the verdict, findings and cautions. A box stays on one page.</summary>
internal sealed class PdfBox(PdfFlow flow)
{
    private const double Padding = 12;

    public void Set(Verdict verdict) => Draw(
        verdict.Tone,
        [
            new(verdict.Label, PdfInk.SubHeading, true),
            new(verdict.Headline.In(flow.Units), verdict.Sentences.Count == 0 ? PdfInk.Heading : PdfInk.Headline),
            .. verdict.Sentences.Select(s => new Piece(s.In(flow.Units), PdfInk.Lead)),
        ]);

    public void Set(Callout callout) => Draw(callout.Tone, Of(callout));

    public void Set(FindingBlock finding) => Draw(finding.Tone, Of(finding));

    public double HeightOf(Callout callout) => Height(Wrapped(Of(callout)));

    public double HeightOf(FindingBlock finding) => Height(Wrapped(Of(finding)));

    private List<Piece> Of(Callout callout) =>
        [new(callout.Title, PdfInk.SubHeading, true), .. callout.Text.Select(t => new Piece(t.In(flow.Units), PdfInk.Body))];

    private static List<Piece> Of(FindingBlock finding)
    {
        List<Piece> pieces = [new(finding.Title, PdfInk.SubHeading, true), new(finding.Likelihood, PdfInk.BodyBold)];
        pieces.AddRange(finding.Evidence.Select(e => new Piece("– " + e, PdfInk.Body)));
        if (finding.Advice.Length > 0)
        {
            pieces.Add(new Piece(ReportWords.Advice, PdfInk.BodyBold));
            pieces.Add(new Piece(finding.Advice, PdfInk.Body));
        }

        return pieces;
    }

    private void Draw(Tone tone, List<Piece> pieces)
    {
        List<(List<string> Lines, Piece Piece)> set = Wrapped(pieces);
        double height = Height(set);
        flow.Need(height);
        var ground = new XSolidBrush(PdfInk.Ground(tone));
        var edge = new XPen(PdfInk.Strong(tone), 1);
        flow.Canvas.DrawRoundedRectangle(edge, ground, PdfFlow.Left, flow.Y, PdfFlow.Width, height, 12, 12);
        double y = flow.Y + Padding;
        foreach ((List<string> lines, Piece piece) in set)
        {
            y = flow.WriteAt(lines, piece.Font, piece.IsToned ? new XSolidBrush(PdfInk.Strong(tone)) : PdfInk.Text, PdfFlow.Left + Padding, y) + 4;
        }

        flow.Y += height + 10;
    }

    private List<(List<string> Lines, Piece Piece)> Wrapped(List<Piece> pieces) =>
        [.. pieces.Select(p => (flow.Wrap(p.Words, p.Font, PdfFlow.Width - (2 * Padding)), p))];

    private static double Height(List<(List<string> Lines, Piece Piece)> set) =>
        (2 * Padding) - 4 + set.Sum(p => (p.Lines.Count * PdfFlow.LineHeight(p.Piece.Font)) + 4);

    private sealed record Piece(string Words, XFont Font, bool IsToned = false);
}
