namespace Clackbeat.Site.Facts;

/// <summary>
/// Something that is to be told, as data: a code and named values. No sentence is made before somebody reads it
/// (<c>Clackbeat.Words.Catalogue</c>), and no code reads sentences back. Codes and names go out in the JSON, so they stay as they are.
/// </summary>
/// <param name="Code">
/// What is told, in lower case with hyphens: its sentence stands under it in the table <c>facts</c> of each language's file. A code with a
/// dot names the table too, as <c>advice.healthy</c>.
/// </param>
/// <param name="Values">The values the sentence speaks of, each name once; the name ends with the unit, as <c>head_m</c>.</param>
public sealed record Fact(string Code, IReadOnlyList<FactValue> Values)
{
    /// <summary>A fact.</summary>
    /// <param name="code">Its code, written out at the call, so that a test finds it.</param>
    /// <param name="values">Names and values.</param>
    public static Fact Of(string code, params FactValue[] values) => new(code, values);

    /// <summary>The number of that name; null where the fact has none.</summary>
    public double? Number(string name) => Values.FirstOrDefault(v => v.Name == name)?.Number;

    /// <summary>Same code and same values.</summary>
    public bool Equals(Fact? other) => other is not null && Code == other.Code && Values.SequenceEqual(other.Values);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Code, Values.Count);
}
