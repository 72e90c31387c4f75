using Clackbeat.Planning.Demand;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Planning.Wishes;

/// <summary>Reads what water is needed for: a steady flow, months, people and animals, a garden.</summary>
/// <param name="written">What was written in a field; nothing where it was left empty.</param>
public sealed class NeedReader(Func<string, IReadOnlyList<string>> written)
{
    private const double DayS = 86_400;

    private readonly FieldReader _fields = new(written);

    /// <summary>Reads it.</summary>
    /// <returns>Water needed in each month, January first [m³/s]; empty where nothing is.</returns>
    /// <exception cref="WishException">A field can't be read.</exception>
    public IReadOnlyList<double> Read()
    {
        double[] all = [.. Enumerable.Repeat(_fields.Flow(WishFields.Need) ?? 0, 12)];
        if (_fields.Text(WishFields.NeedMonths) is { } list)
        {
            all = [.. all.Zip(FieldReader.Twelve(WishFields.NeedMonths, list, QuantityKind.Flow), (a, b) => a + b)];
        }

        double usedM3PerDay = Uses().Sum(u => u.Number * NeedRate.Of(u.Item).UsualM3PerDay);
        all = [.. all.Select(a => a + (usedM3PerDay / DayS))];

        if (_fields.Text(WishFields.Irrigate) is { } irrigated)
        {
            // A millimetre on a square metre is a litre.
            string[] parts = irrigated.Split('=', 2, StringSplitOptions.TrimEntries);
            double areaM2 = parts.Length == 2
                ? FieldReader.Number(WishFields.Irrigate, parts[0], 0, 1e7)
                : throw FieldReader.Slip(WishFields.Irrigate, Site.Facts.Fact.Of("plan-slip-irrigate"));
            all = [.. all.Zip(FieldReader.OneOrTwelve(WishFields.Irrigate, parts[1], 0, 30), (a, mm) => a + (areaM2 * mm / 1000 / DayS))];
        }

        return all.Sum() > 0 ? all : [];
    }

    /// <summary>People and animals among it.</summary>
    public IReadOnlyList<NeedUse> Uses() =>
        [.. _fields.Pairs(WishFields.Use, [.. NeedRate.All.Select(r => r.Item)]).Select(p => new NeedUse(p.Name, p.Number))];

    /// <summary>Share of the year's need that may stay unmet.</summary>
    public double Shortfall() => _fields.Quantity(WishFields.Shortfall, QuantityKind.Share) switch
    {
        null => 0.02,
        >= 0 and < 1 and { } share => share,
        _ => throw FieldReader.Slip(WishFields.Shortfall, Site.Facts.Fact.Of("plan-slip-share")),
    };
}
