namespace Clackbeat.Signal.Diagnosis;

/// <summary>A part of the beat, for pointing at it.</summary>
public enum BeatPart
{
    /// <summary>The knock as the waste valve shuts.</summary>
    Closure,

    /// <summary>The plateau while water is delivered.</summary>
    Plateau,

    /// <summary>The fall at the end of the delivery.</summary>
    Fall,

    /// <summary>The suction after it.</summary>
    Recoil,

    /// <summary>The open phase, while the column gains speed.</summary>
    Open,

    /// <summary>The rhythm of many beats.</summary>
    Rhythm,

    /// <summary>The level of the whole record.</summary>
    Level,
}

/// <summary>What a keeper is told of a condition.</summary>
/// <param name="Name">The condition in a few words, as the end of a sentence.</param>
/// <param name="Where">The part of the beat that shows it best.</param>
/// <param name="Advice">What to look at first, how, the usual repair, and what a fresh recording should then show.</param>
public sealed record ConditionText(string Name, BeatPart Where, string Advice)
{
    private static readonly Dictionary<string, ConditionText> Texts = Read();

    /// <summary>The text of a condition code.</summary>
    public static ConditionText Of(string condition) => Texts[condition];

    /// <summary>The text of a condition code; null for a word that is none.</summary>
    public static ConditionText? Find(string condition) => Texts.GetValueOrDefault(condition);

    private static Dictionary<string, ConditionText> Read() => DiagnosisData.Tables("conditions.toml").ToDictionary(
        t => t.Key,
        t => new ConditionText((string)t.Value["name"], Enum.Parse<BeatPart>((string)t.Value["where"], ignoreCase: true), (string)t.Value["advice"]),
        StringComparer.Ordinal);
}
