using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;

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
            return analysis.State == RamState.NoSignal ? null : new Section("findings", "What was found", [new Paragraph(Words.NoFindings)]);
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
            blocks.Add(new Callout(Tone.Stop, Words.BeforeYouOpen, [Words.ShutFirst]));
        }

        return new Section("findings", "What was found", blocks);
    }

    private static FindingBlock Found(Finding finding)
    {
        string words = Words.Condition(finding.Condition);
        return new FindingBlock(
            finding.Condition == Conditions.Healthy ? Tone.Well : Tone.Look,
            char.ToUpperInvariant(words[0]) + words[1..],
            $"{Words.Likelihood(finding.Probability)} ({Words.Odds(finding.Probability)})",
            finding.Evidence,
            finding.Advice);
    }

    private Drawing Picture(Finding finding, Signature now)
    {
        Signature? well = baseline?.Signature;
        string parts = string.Join(", ", finding.Parts.Select(SignaturePlot.Name));
        string beside = well is null ? "" : " beside the median beat of the baseline";
        return new Drawing(
            "sign-" + finding.Condition,
            "Where the beat shows it: " + parts,
            $"The median beat of this record{beside}; shaded: {parts}. {string.Join(' ', finding.Evidence)}",
            well is null ? Words.SignCaption : Words.SignCaption.Then(Words.SignBesideCaption),
            f => SignaturePlot.Draw(now, well, finding.Parts, f));
    }
}
