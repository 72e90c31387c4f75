using Clackbeat.Hydraulics.Rating;
using Clackbeat.Planning.Bills;
using Clackbeat.Planning.Demand;
using Clackbeat.Planning.Pipework;
using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Plans;

/// <summary>The pipe and fittings of a choice.</summary>
public static class RamBill
{
    private const double Litres = 1000;

    /// <summary>Lists them.</summary>
    /// <param name="choice">The choice.</param>
    /// <param name="enough">For the storage tank; null where no need was given.</param>
    public static IReadOnlyList<BillItem> Of(RamChoice choice, Sufficiency? enough)
    {
        ArgumentNullException.ThrowIfNull(choice);
        CataloguePipe pipe = choice.Size.Pipe;
        DeliveryMain main = choice.Main;
        List<BillItem> bill =
        [
            Line(PriceNames.Ram, choice.Count, BillUnit.Piece, Fact.Of("plan-detail-ram", ("size", pipe.Size))),
            Line(
                PriceNames.DrivePipe, choice.Count * choice.Length.LengthM, BillUnit.Metre,
                Fact.Of("plan-detail-pipe", ("material", PlanFacts.Material(pipe.Material)), ("class", pipe.Class), ("size", pipe.Size))),
            // One gate before each ram, one behind it.
            Line(PriceNames.Valve, 2 * choice.Count, BillUnit.Piece, Fact.Of("plan-detail-valves", ("rams", choice.Count), ("size", pipe.Size))),
            Line(PriceNames.AirVessel, choice.Count, BillUnit.Piece, Fact.Of("plan-detail-vessel", ("volume_l", Litres * choice.AirVesselM3))),
            Line(PriceNames.HeaderTank, 1, BillUnit.Piece, Fact.Of("plan-detail-tank", ("volume_l", Litres * choice.Count * choice.Intake.TankM3))),
            Line(
                PriceNames.Main, main.LengthM, BillUnit.Metre,
                Fact.Of("plan-detail-pipe", ("material", PlanFacts.Material(main.Material)), ("class", main.Class), ("size", main.Size))),
        ];
        if (enough?.TankM3 is { } tankM3)
        {
            bill.Add(Line(PriceNames.Tank, tankM3, BillUnit.CubicMetre, null));
        }

        return bill;

        BillItem Line(string code, double quantity, BillUnit unit, Fact? detail) => new(code, quantity, unit, detail, choice.Wish.PriceOf(code));
    }
}
