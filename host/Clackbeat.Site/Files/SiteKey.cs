using Clackbeat.Hydraulics;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Files;

/// <summary>What a key's value is, beyond plain quantities.</summary>
internal enum ValueKind
{
    Quantity,

    /// <summary>Two quantities of one kind.</summary>
    Range,

    /// <summary>A range of volts or of milliamperes.</summary>
    SignalRange,
    Text,
    Choice,
    Material,
    Number,
    Integer,
    Flag,
    Date,
}

/// <summary>One key of the site file, as Data/site-keys.toml describes it.</summary>
internal sealed record SiteKey
{
    public required string Table { get; init; }

    public required string Key { get; init; }

    public required ValueKind Kind { get; init; }

    /// <summary>The kind of quantity, for those that are one.</summary>
    public QuantityKind Quantity { get; init; }

    public bool Required { get; init; }

    /// <summary>The template writes the key, instead of hiding it behind a comment mark.</summary>
    public bool Written { get; init; }

    /// <summary>Ends of what can be true, SI.</summary>
    public Band Limits { get; init; }

    /// <summary>The lower limit itself is excluded.</summary>
    public bool AboveLow { get; init; }

    public required string Meaning { get; init; }

    /// <summary>The template's value in each system of units.</summary>
    public required string Metric { get; init; }

    public required string Us { get; init; }

    /// <summary>What a missing key weakens; empty for required keys.</summary>
    public string LeftOut { get; init; } = "";

    public IReadOnlyList<string> Choices { get; init; } = [];

    /// <summary>The value as TOML writes it: quantities and words in quotes, numbers, flags and dates bare.</summary>
    public string Quoted(Units units)
    {
        string? text = units == Units.Us ? Us : Metric;
        return Kind is ValueKind.Number or ValueKind.Integer or ValueKind.Flag or ValueKind.Date ? text : $"\"{text}\"";
    }
}

/// <summary>One table of the site file.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Repeated">It is an array of tables, [[name]].</param>
/// <param name="About">What it describes.</param>
internal sealed record SiteTable(string Name, bool Repeated, string About)
{
    /// <summary>The name with its brackets.</summary>
    public string Header => Repeated ? $"[[{Name}]]" : $"[{Name}]";
}
