using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>What was found, each finding with its reasons, and a picture of the beat that points at them.</summary>
internal sealed class FindingsPage(RamAnalysis analysis, RamAnalysis? baseline)
{
    // Less likely faults are named in words only: a picture of them would say more than the record does.
    private const double LeastPictured = 0.3;
    private const int MostPictures = 2;

    /// <summary>The section; null when there is nothing to judge.</summary>
    public Section? Make()
    {
        if (analysis.Diagnosis.Count == 0)
        {
            return analysis.State == RamState.NoSignal ? null : new Section("findings", Phrases.Say("report.what-found"), [new Paragraph(ReportWords.NoFindings)]);
        }

        var blocks = new List<Block>();
        int pictures = 0;
        foreach (Finding finding in analysis.Diagnosis)
        {
            blocks.Add(Found(finding));
            bool tells = finding.Condition != Conditions.Healthy && finding.Probability >= LeastPictured && pictures < MostPictures;
            if (tells && SignaturePlot.CanDraw(analysis.Signature, finding.Parts))
            {
                pictures++;
                blocks.Add(new PictureBlock(Picture(finding, analysis.Signature!)));
            }
        }

        if (analysis.Diagnosis.Any(f => f.Condition != Conditions.Healthy))
        {
            blocks.Add(new Callout(Tone.Stop, ReportWords.BeforeYouOpen, [ReportWords.ShutFirst]));
        }

        return new Section("findings", Phrases.Say("report.what-found"), blocks);
    }

    private static FindingBlock Found(Finding finding)
    {
        string words = ReportWords.Condition(finding.Condition);
        return new FindingBlock(
            finding.Condition == Conditions.Healthy ? Tone.Well : Tone.Look,
            char.ToUpperInvariant(words[0]) + words[1..],
            $"{ReportWords.Likelihood(finding.Probability)} ({ReportWords.Odds(finding.Probability)})",
            Catalogue.Current.Say(finding.Evidence),
            Catalogue.Current.Say(finding.Advice));
    }

    private Drawing Picture(Finding finding, Signature now)
    {
        Signature? well = baseline?.Signature;
        string parts = string.Join(", ", finding.Parts.Select(SignaturePlot.Name));
        string beside = well is null ? "" : Phrases.Say("report.beside-median-beat-baseline");
        return new Drawing(
            "sign-" + finding.Condition,
            Phrases.Say("report.where-beat-shows") + parts,
            Phrases.Say("report.median-beat-record-shaded", ("beside", beside), ("parts", parts), ("evidence", string.Join(' ', Catalogue.Current.Say(finding.Evidence)))),
            well is null ? ReportWords.SignCaption : ReportWords.SignCaption.Then(ReportWords.SignBesideCaption),
            f => SignaturePlot.Draw(now, well, finding.Parts, f));
    }
}
