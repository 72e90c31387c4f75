namespace Clackbeat.Site.Facts;

/// <summary>An exception that a person reads of: it holds a fact, which becomes a sentence in the reader's language.</summary>
public interface ITelling
{
    /// <summary>What is wrong, where, and what to do.</summary>
    Fact What { get; }
}

/// <summary>Makes the text of an exception from its fact.</summary>
/// <remarks>
/// .NET asks an exception for its text wherever it goes, and the catalogue of sentences stands above this assembly. It sets
/// <see cref="Say"/> once; where it isn't loaded a text is the code with its values.
/// </remarks>
public static class ExceptionText
{
    /// <summary>Makes a sentence of a fact.</summary>
    public static Func<Fact, string> Say { get; set; } = Plain;

    private static string Plain(Fact fact) => $"{fact.Code}: {string.Join(", ", fact.Values.Select(v => $"{v.Name} {Plain(v)}"))}";

    private static string Plain(FactValue value) => value switch
    {
        { Word: { } word } => word,
        { Facts: { } facts } => string.Join("; ", facts.Select(Plain)),
        _ => FormattableString.Invariant($"{value.Number}"),
    };
}
