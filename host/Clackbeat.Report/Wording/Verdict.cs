namespace Clackbeat.Report.Wording;

/// <summary>How urgently a keeper should act.</summary>
internal enum Tone
{
    /// <summary>Nothing to do.</summary>
    Well,

    /// <summary>Neither good nor bad news.</summary>
    Plain,

    /// <summary>Worth a look.</summary>
    Look,

    /// <summary>Danger.</summary>
    Stop,
}

/// <summary>What the report comes to.</summary>
internal sealed record Verdict(Tone Tone, string Label, Rich Headline, IReadOnlyList<Rich> Sentences);
