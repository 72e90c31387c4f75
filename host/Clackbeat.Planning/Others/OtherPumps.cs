using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Planning.Bills;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Others;

/// <summary>
/// The other pumps that could lift the same water. Shares of energy are ranges of common practice for sets under a kilowatt; each stands
/// in the alternative's own assumptions, so that a reader with better figures can replace them.
/// </summary>
public static class OtherPumps
{
    /// <summary>A small turbine, its drive and a high-lift pump together, shaft to water.</summary>
    public static readonly Band TurbineSet = new(0.15, 0.40);

    /// <summary>Electric pump, wire to water.</summary>
    public static readonly Band ElectricSet = new(0.25, 0.55);

    /// <summary>Petrol engine with its pump, fuel to water.</summary>
    public static readonly Band EngineSet = new(0.04, 0.12);

    /// <summary>What reaches the pump of the panels' rated output: heat, dirt, controller.</summary>
    public static readonly Band PanelShare = new(0.6, 0.8);

    /// <summary>Hours of full sun a day where nobody gave them: a dull month to a bright one in the inhabited latitudes.</summary>
    public static readonly Band UsualSunHours = new(1.5, 6);

    // Lower heating value of petrol, 8.9 kWh a litre (handbooks, from memory).
    private const double PetrolJPerL = 8.9 * KilowattHourJ;
    private const double KilowattHourJ = 3.6e6;
    private const double DayS = 86_400;
    private const double SecondsPerHour = 3600;
    private const double Year = 365;

    // An engine or a mains pump is bought to do a day's water in a few hours.
    private const double PumpingHours = 4;

    /// <summary>All four on a wish.</summary>
    /// <param name="wish">The wish; its lift lies above its fall.</param>
    /// <param name="waterM3PerS">Water to be matched in each month, January first [m³/s]: the need, or what the ram gives.</param>
    /// <param name="water">The water.</param>
    public static IReadOnlyList<Alternative> For(PlanWish wish, IReadOnlyList<double> waterM3PerS, WaterProperties water)
    {
        double weight = water.DensityKgPerM3 * Constants.GravityMPerS2;
        // A pump beside the intake lifts from the spring, not from the ram's pit.
        double riseM = wish.LiftM - Math.Max(wish.SupplyHeadM, 0);
        List<Alternative> all = [];
        if (wish.SupplyHeadM > 0)
        {
            all.Add(Turbine(wish, riseM, weight));
        }

        // Nothing lifts more than the spring gives.
        IReadOnlyList<double> supply = Twelve(wish.MonthlyFlowM3PerS, wish.SupplyFlowM3PerS);
        double[] matched = [.. waterM3PerS.Zip(supply, Math.Min)];
        all.Add(Solar(wish, riseM, weight, matched));
        all.Add(Engine(wish, riseM, weight, matched));
        all.Add(Mains(wish, riseM, weight, matched));
        return all;
    }

    private static Alternative Turbine(PlanWish wish, double riseM, double weight)
    {
        double power = weight * wish.SupplyFlowM3PerS * wish.SupplyHeadM;
        Band Water(double flow)
        {
            // q (h - H) = η (Q - q) H: what is pumped doesn't drive.
            double At(double share) => share * flow * wish.SupplyHeadM / (riseM + share * wish.SupplyHeadM);
            return new Band(At(TurbineSet.Low), At(TurbineSet.High));
        }

        List<Fact> assumed = [Fact.Of("plan-turbine-assumed", ("low_share", TurbineSet.Low), ("high_share", TurbineSet.High), ("power_w", power))];
        if (power < 500)
        {
            assumed.Add(Fact.Of("plan-turbine-small", ("power_w", power)));
        }

        return new Alternative
        {
            Code = Alternative.TurbinePump,
            WaterM3PerS = [.. (wish.MonthlyFlowM3PerS.Count == 12 ? wish.MonthlyFlowM3PerS : [wish.SupplyFlowM3PerS]).Select(Water)],
            EnergyPerDayJ = new Band(0, 0),
            Takes = [],
            PowerW = new Band(power, power),
            Bill = [Item(wish, PriceNames.Turbine, 1, BillUnit.Piece)],
            Assumptions = assumed,
            Wear = Fact.Of("plan-turbine-wear"),
        };
    }

    private static Alternative Solar(PlanWish wish, double riseM, double weight, double[] matched)
    {
        Band energy = EnergyADay(riseM, weight, matched, ElectricSet);
        Band PanelsIn(int month)
        {
            double lifted = weight * riseM * matched[month] * DayS / SecondsPerHour;
            return new Band(
                lifted / ElectricSet.High / (PanelShare.High * Sun(month, UsualSunHours.High)),
                lifted / ElectricSet.Low / (PanelShare.Low * Sun(month, UsualSunHours.Low)));
        }

        double Sun(int month, double unknown) => wish.SunHours.Count == 12 ? wish.SunHours[month] : unknown;

        // The month that asks the most of the panels, by its own sun, decides what is bought.
        Band[] months = [.. Enumerable.Range(0, 12).Select(PanelsIn)];
        var panels = new Band(months.Max(m => m.Low), months.Max(m => m.High));
        List<Fact> assumed =
        [
            Fact.Of("plan-electric-assumed", ("low_share", ElectricSet.Low), ("high_share", ElectricSet.High), ("rise_m", riseM)),
            Fact.Of("plan-panel-assumed", ("low_share", PanelShare.Low), ("high_share", PanelShare.High)),
            Fact.Of("plan-solar-night"),
        ];
        if (wish.SunHours.Count != 12)
        {
            assumed.Add(Fact.Of("plan-sun-unknown", ("low_h", UsualSunHours.Low), ("high_h", UsualSunHours.High)));
        }

        return new Alternative
        {
            Code = Alternative.SolarPump,
            WaterM3PerS = Exactly(matched),
            EnergyPerDayJ = energy,
            Takes = months,
            PowerW = panels,
            Bill = [Item(wish, PriceNames.Panel, panels.Middle, BillUnit.Watt), Item(wish, PriceNames.Pump, 1, BillUnit.Piece)],
            Assumptions = assumed,
            Wear = Fact.Of("plan-solar-wear"),
        };
    }

    private static Alternative Engine(PlanWish wish, double riseM, double weight, double[] matched)
    {
        Band energy = EnergyADay(riseM, weight, matched, EngineSet);
        double litres = Year * energy.Middle / PetrolJPerL;
        return new Alternative
        {
            Code = Alternative.EnginePump,
            WaterM3PerS = Exactly(matched),
            EnergyPerDayJ = energy,
            Takes = [.. matched.Select(m => InMonth(riseM, weight, m, EngineSet, PetrolJPerL))],
            PowerW = Shaft(riseM, weight, matched),
            Bill = [Item(wish, PriceNames.Fuel, litres, BillUnit.LitreAYear), Item(wish, PriceNames.Pump, 1, BillUnit.Piece)],
            Assumptions =
            [
                Fact.Of("plan-engine-assumed", ("low_share", EngineSet.Low), ("high_share", EngineSet.High), ("rise_m", riseM)),
                Fact.Of("plan-pumping-hours", ("hours", PumpingHours)),
            ],
            Wear = Fact.Of("plan-engine-wear"),
        };
    }

    private static Alternative Mains(PlanWish wish, double riseM, double weight, double[] matched)
    {
        Band energy = EnergyADay(riseM, weight, matched, ElectricSet);
        return new Alternative
        {
            Code = Alternative.MainsPump,
            WaterM3PerS = Exactly(matched),
            EnergyPerDayJ = energy,
            Takes = [.. matched.Select(m => InMonth(riseM, weight, m, ElectricSet, KilowattHourJ))],
            PowerW = Shaft(riseM, weight, matched),
            Bill = [Item(wish, PriceNames.KilowattHour, Year * energy.Middle / KilowattHourJ, BillUnit.KilowattHourAYear), Item(wish, PriceNames.Pump, 1, BillUnit.Piece)],
            Assumptions =
            [
                Fact.Of("plan-electric-assumed", ("low_share", ElectricSet.Low), ("high_share", ElectricSet.High), ("rise_m", riseM)),
                Fact.Of("plan-pumping-hours", ("hours", PumpingHours)),
            ],
            Wear = Fact.Of("plan-mains-wear"),
        };
    }

    /// <summary>Twelve months of a flow that may be known only as one.</summary>
    /// <param name="months">Twelve flows, or none.</param>
    /// <param name="usual">The one flow.</param>
    public static IReadOnlyList<double> Twelve(IReadOnlyList<double> months, double usual) =>
        months.Count == 12 ? months : [.. Enumerable.Repeat(usual, 12)];

    private static Band EnergyADay(double riseM, double weight, double[] matched, Band set)
    {
        double lifted = weight * riseM * matched.Average() * DayS;
        return new Band(lifted / set.High, lifted / set.Low);
    }

    // What a day of a month takes, in litres or kilowatt hours.
    private static Band InMonth(double riseM, double weight, double m3PerS, Band set, double joules) =>
        new(weight * riseM * m3PerS * DayS / set.High / joules, weight * riseM * m3PerS * DayS / set.Low / joules);

    // Power of a pump that does the day's water in its hours, at 0.4 to 0.65 of the shaft's work (small centrifugal and piston pumps).
    private static Band Shaft(double riseM, double weight, double[] matched)
    {
        double lifting = weight * riseM * matched.Max() * 24 / PumpingHours;
        return new Band(lifting / 0.65, lifting / 0.4);
    }

    private static IReadOnlyList<Band> Exactly(double[] matched) =>
        matched.Distinct().Count() == 1 ? [new Band(matched[0], matched[0])] : [.. matched.Select(m => new Band(m, m))];

    private static BillItem Item(PlanWish wish, string code, double quantity, BillUnit unit) =>
        new(code, quantity, unit, null, wish.PriceOf(code));
}
