using Clackbeat.Hydraulics.Rating;
using Clackbeat.Twin.Changes;
using Clackbeat.Words;

namespace Clackbeat.Report.Twins;

/// <summary>What a prediction says beside its figures, in words: for the screen and the page alike.</summary>
public static class PredictionWords
{
    /// <summary>How likely the ram goes on beating.</summary>
    /// <param name="ram">The prediction.</param>
    public static string Odds(Prediction ram)
    {
        ArgumentNullException.ThrowIfNull(ram);
        return Phrases.Say("whatif.in-100", ("odds", 100 * ram.WillBeat));
    }

    /// <summary>How the drive pipe stands to its rating.</summary>
    /// <param name="verdict">The verdict on its pressure.</param>
    public static string Pipe(PipeVerdict verdict) => Phrases.Say(verdict switch
    {
        PipeVerdict.Within => "whatif.within",
        PipeVerdict.Near => "whatif.near",
        PipeVerdict.Over => "whatif.over",
        _ => "whatif.unknown",
    });
}
