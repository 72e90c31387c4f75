namespace Clackbeat.Site.Facts;

/// <summary>One named value of a fact: a number, a quantity, a word, other facts, or a likelihood for each of some conditions.</summary>
public sealed record FactValue
{
    private FactValue(string name) => Name = name;

    /// <summary>Its name, with the unit at its end.</summary>
    public string Name { get; }

    /// <summary>The number, where it is one; finite. Of a quantity it is the value in SI, of a range the lower end.</summary>
    public double? Number { get; private init; }

    /// <summary>The quantity, where it is one that the reader sees in their own units.</summary>
    public IShown? Quantity { get; private init; }

    /// <summary>The word, where it is one: a name or a date, the same in every language.</summary>
    public string? Word { get; private init; }

    /// <summary>The facts that are told at its place, one after the other, where it is such; a phrase without values is one too.</summary>
    public IReadOnlyList<Fact>? Facts { get; private init; }

    /// <summary>Condition codes and their probabilities, the likeliest first, where it is such a list.</summary>
    public IReadOnlyList<(string Condition, double Probability)>? Likelihoods { get; private init; }

    /// <summary>A number.</summary>
    public static implicit operator FactValue((string Name, double Number) value) => new(value.Name) { Number = value.Number };

    /// <summary>A quantity.</summary>
    public static implicit operator FactValue((string Name, IShown Quantity) value) =>
        new(value.Name) { Number = value.Quantity.Value, Quantity = value.Quantity };

    /// <summary>A word.</summary>
    public static implicit operator FactValue((string Name, string Word) value) => new(value.Name) { Word = value.Word };

    /// <summary>A fact within a fact.</summary>
    public static implicit operator FactValue((string Name, Fact Fact) value) => new(value.Name) { Facts = [value.Fact] };

    /// <summary>Facts within a fact, listed.</summary>
    public static implicit operator FactValue((string Name, Fact[] Facts) value) => new(value.Name) { Facts = value.Facts };

    /// <summary>Conditions with their probabilities.</summary>
    /// <param name="name">Name of the list.</param>
    /// <param name="likelihoods">Codes and probabilities, the likeliest first.</param>
    public static FactValue Of(string name, IReadOnlyList<(string Condition, double Probability)> likelihoods) =>
        new(name) { Likelihoods = likelihoods };

    /// <summary>Same name and same value.</summary>
    public bool Equals(FactValue? other) => other is not null && Name == other.Name && Number == other.Number && Equals(Quantity, other.Quantity) && Word == other.Word
        && (Facts ?? []).SequenceEqual(other.Facts ?? []) && (Likelihoods ?? []).SequenceEqual(other.Likelihoods ?? []);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Name, Number, Word);
}
