using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.States;

/// <summary>What is told of a <see cref="ZeroCheck"/>.</summary>
public static class ZeroFacts
{
    /// <summary>What in the record shows that the zero is wrong.</summary>
    /// <param name="zero">A check that found it wrong.</param>
    public static Fact Evidence(ZeroCheck zero) => zero switch
    {
        { Fault: ZeroFault.GaugeReadAsAbsolute } => Fact.Of("zero-gauge-read-as-absolute", ("level_kpa", zero.LevelPa / 1000)),
        { AtOpening: true } => Fact.Of("zero-absolute-at-opening", ("level_kpa", zero.LevelPa / 1000)),
        _ => Fact.Of("zero-absolute-at-rest", ("level_kpa", zero.LevelPa / 1000)),
    };

    /// <summary>What to do about it.</summary>
    /// <param name="zero">A check that found it wrong.</param>
    public static Fact Remedy(ZeroCheck zero) => zero.Fault == ZeroFault.GaugeReadAsAbsolute
        ? Fact.Of("zero-remedy-gauge")
        : Fact.Of("zero-remedy-absolute");

    /// <summary>Why a record is refused, where it can be read again.</summary>
    /// <param name="file">The record.</param>
    /// <param name="zero">A check that found the zero wrong.</param>
    public static Fact Refusal(string file, ZeroCheck zero) =>
        Fact.Of("zero-refused", ("file", file), ("evidence", Evidence(zero)), ("remedy", Remedy(zero)));

    /// <summary>What stands among a record's limits; null when nothing is wrong.</summary>
    /// <param name="zero">The check.</param>
    internal static Fact? Limit(ZeroCheck zero) => zero.Fault switch
    {
        ZeroFault.None => null,
        ZeroFault.Undecided => Fact.Of("zero-undecided", ("level_kpa", zero.LevelPa / 1000)),
        _ => Fact.Of("zero-off-by-an-atmosphere"),
    };
}
