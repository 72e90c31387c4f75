using Clackbeat.Site.Facts;

namespace Clackbeat.Report.Wording;

/// <summary>A value of a sentence: plain, or a pressure that the sentence's reader writes.</summary>
/// <param name="Name">Its place's name.</param>
/// <param name="Plain">A word or number; null for a pressure.</param>
/// <param name="Pressure">The pressure.</param>
public readonly record struct SentenceValue(string Name, FactValue? Plain, SaidPressure Pressure)
{
    /// <summary>A word.</summary>
    /// <param name="value">Its name and itself.</param>
    public static implicit operator SentenceValue((string Name, string Word) value) => new(value.Name, (value.Name, value.Word), default);

    /// <summary>A number.</summary>
    /// <param name="value">Its name and itself.</param>
    public static implicit operator SentenceValue((string Name, double Number) value) => new(value.Name, (value.Name, value.Number), default);

    /// <summary>A pressure.</summary>
    /// <param name="value">Its name and itself.</param>
    public static implicit operator SentenceValue((string Name, SaidPressure Pressure) value) => new(value.Name, null, value.Pressure);
}
