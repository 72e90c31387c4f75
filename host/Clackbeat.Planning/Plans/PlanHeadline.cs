using Clackbeat.Planning.Bills;
using Clackbeat.Planning.Demand;
using Clackbeat.Planning.Others;
using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Plans;

/// <summary>The few sentences that a plan comes to.</summary>
public static class PlanHeadline
{
    private const double LitresPerDay = 86_400_000;
    private const double KilowattHourJ = 3.6e6;

    /// <summary>What to buy and what it gives.</summary>
    /// <param name="best">The choice.</param>
    public static Fact Of(RamChoice best)
    {
        ArgumentNullException.ThrowIfNull(best);
        return Fact.Of(
            "plan-headline", ("rams", best.Count), ("size", best.Size.Pipe.Size), ("material", PlanFacts.Material(best.Size.Pipe.Material)),
            ("length_m", best.Length.LengthM), ("low_l_per_day", LitresPerDay * best.DeliveredM3PerS.Low),
            ("high_l_per_day", LitresPerDay * best.DeliveredM3PerS.High));
    }

    /// <summary>What it gives a day.</summary>
    /// <param name="best">The choice.</param>
    public static Fact Daily(RamChoice best)
    {
        ArgumentNullException.ThrowIfNull(best);
        return Fact.Of(
            "plan.day-and-night", ("low_l_per_day", LitresPerDay * best.DeliveredM3PerS.Low), ("high_l_per_day", LitresPerDay * best.DeliveredM3PerS.High));
    }

    /// <summary>Whether it is enough, and the tank; nothing where no need was given.</summary>
    /// <param name="enough">Water beside the need.</param>
    public static IEnumerable<Fact> Enough(Sufficiency? enough)
    {
        if (enough is null)
        {
            yield break;
        }

        double most = LitresPerDay * enough.NeedM3PerS.Max();
        if (enough.ShortMonths.Count == 12)
        {
            yield return Fact.Of("plan-not-enough", ("need_l_per_day", most));
        }
        else if (enough.ShortMonths.Count > 0)
        {
            yield return Fact.Of("plan-short-months", ("need_l_per_day", most), ("months", enough.ShortMonths.Count), ("which", Names(enough.ShortMonths)));
        }
        else if (enough.DoubtfulMonths.Count > 0)
        {
            yield return Fact.Of("plan-doubtful-months", ("need_l_per_day", most), ("months", enough.DoubtfulMonths.Count), ("which", Names(enough.DoubtfulMonths)));
        }
        else
        {
            yield return Fact.Of("plan-enough", ("need_l_per_day", most));
        }

        if (enough.ShortMonths.Count > 0 && enough.DoubtfulMonths.Count > 0)
        {
            yield return Fact.Of("plan-doubtful-besides", ("months", enough.DoubtfulMonths.Count));
        }

        foreach (Fact fact in Tank(enough))
        {
            yield return fact;
        }
    }

    /// <summary>Another pump in one sentence.</summary>
    /// <param name="other">The pump.</param>
    public static Fact Of(Alternative other)
    {
        ArgumentNullException.ThrowIfNull(other);
        (double low, double high) = (LitresPerDay * other.WaterM3PerS.Min(w => w.Low), LitresPerDay * other.WaterM3PerS.Max(w => w.High));
        return other.Code switch
        {
            Alternative.TurbinePump => Fact.Of("plan-turbine-gives", ("low_l_per_day", low), ("high_l_per_day", high)),
            Alternative.SolarPump => Fact.Of("plan-solar-gives", ("high_l_per_day", high), ("low_w", Rounded(other.PowerW.Low)), ("high_w", Rounded(other.PowerW.High))),
            Alternative.EnginePump => Fact.Of("plan-engine-gives", ("high_l_per_day", high), ("fuel_l", other.Bill.Single(b => b.Unit == BillUnit.LitreAYear).Quantity)),
            _ => Fact.Of("plan-mains-gives", ("high_l_per_day", high), ("low_kwh", other.EnergyPerDayJ.Low / KilowattHourJ), ("high_kwh", other.EnergyPerDayJ.High / KilowattHourJ)),
        };
    }

    /// <summary>Months by name, as facts of the language's own table.</summary>
    /// <param name="months">1 for January.</param>
    public static Fact[] Names(IEnumerable<int> months) => [.. months.Select(m => new Fact($"dates.name-{m}", []))];

    private static IEnumerable<Fact> Tank(Sufficiency enough)
    {
        if (enough.TankM3 is not { } tankM3)
        {
            yield return Fact.Of("plan-no-tank-helps", ("shortfall_share", enough.Shortfall));
            yield break;
        }

        yield return Fact.Of("plan-tank", ("tank_m3", tankM3), ("shortfall_share", enough.Shortfall));
        if (enough.CautiousTankM3 is not { } cautiousM3)
        {
            yield return Fact.Of("plan-no-cautious-tank");
        }
        else if (cautiousM3 > 1.05 * tankM3)
        {
            yield return Fact.Of("plan-cautious-tank", ("tank_m3", cautiousM3));
        }
    }

    // A plan knows no more than two digits.
    private static double Rounded(double value)
    {
        double step = value > 0 ? Math.Pow(10, Math.Floor(Math.Log10(value)) - 1) : 1;
        return Math.Round(value / step) * step;
    }
}
