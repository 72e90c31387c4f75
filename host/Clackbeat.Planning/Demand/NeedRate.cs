using Clackbeat.Hydraulics;
using nietras.SeparatedValues;

namespace Clackbeat.Planning.Demand;

/// <summary>What one head of people or animals uses a day, with the source.</summary>
/// <param name="Item">Who, as <c>dairy-cow</c>.</param>
/// <param name="M3PerDay">Water a day [m³].</param>
/// <param name="Source">Where it is from.</param>
public sealed record NeedRate(string Item, Band M3PerDay, string Source)
{
    /// <summary>Every rate, Data/needs.csv.</summary>
    public static IReadOnlyList<NeedRate> All { get; } = Read();

    /// <summary>The rate of an item.</summary>
    /// <param name="item">Who.</param>
    public static NeedRate Of(string item) => All.First(r => r.Item == item);

    /// <summary>
    /// What is planned with [m³ a day]: the middle of the range, and of people the intermediate level of service, 50 L.
    /// </summary>
    public double UsualM3PerDay => Item == "person" ? 0.05 : M3PerDay.Middle;

    private static List<NeedRate> Read()
    {
        using Stream stream = typeof(NeedRate).Assembly.GetManifestResourceStream("needs.csv")
            ?? throw new InvalidOperationException("The data file needs.csv is missing from the program.");
        using SepReader reader = Sep.New(',').Reader(o => o with { Unescape = true }).From(stream);
        return [.. reader.Enumerate(row => new NeedRate(
            row["item"].ToString(),
            new Band(row["low_l_per_day"].Parse<double>() / 1000, row["high_l_per_day"].Parse<double>() / 1000),
            row["source"].ToString()))];
    }
}
