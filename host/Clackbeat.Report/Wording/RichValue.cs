using Clackbeat.Site.Facts;

namespace Clackbeat.Report.Wording;

/// <summary>A value of a phrase: plain, or one that reads differently in metric and US units.</summary>
/// <param name="Name">Its place's name.</param>
/// <param name="Plain">A word or number.</param>
/// <param name="Text">Words with quantities in them.</param>
internal readonly record struct RichValue(string Name, FactValue? Plain, Rich? Text)
{
    /// <summary>A word.</summary>
    public static implicit operator RichValue((string Name, string Word) value) => new(value.Name, (value.Name, value.Word), null);

    /// <summary>A number.</summary>
    public static implicit operator RichValue((string Name, double Number) value) => new(value.Name, (value.Name, value.Number), null);

    /// <summary>A quantity.</summary>
    public static implicit operator RichValue((string Name, Measure Quantity) value) => new(value.Name, null, value.Quantity);

    /// <summary>Words with quantities.</summary>
    public static implicit operator RichValue((string Name, Rich Text) value) => new(value.Name, null, value.Text);
}
