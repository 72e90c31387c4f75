using Clackbeat.Hydraulics;
using Clackbeat.Planning.Bills;
using Clackbeat.Planning.Others;
using Clackbeat.Planning.Plans;
using Clackbeat.Report.Content;
using Clackbeat.Report.Wording;
using Clackbeat.Words;

namespace Clackbeat.Report.Planned;

/// <summary>The tables of a plan, which page, paper and screen show alike.</summary>
internal sealed class PlanTables(RamPlan plan)
{
    private const double LitresPerDay = 86_400_000;
    private const double LitresPerGallon = 3.785411784;
    private const double FootM = 0.3048;

    private readonly RamChoice _best = plan.Choices[0];

    /// <summary>True where the months differ in anything that the plan knows.</summary>
    public bool HasMonths => _best.Months.Count == 12 || plan.Wish.MonthlyNeedM3PerS.Distinct().Count() > 1 || plan.Wish.SunHours.Distinct().Count() > 1;

    /// <summary>Parts to buy.</summary>
    public Table Bill()
    {
        IReadOnlyList<BillItem> bill = RamBill.Of(_best, plan.Enough);
        List<TableRow> rows = [.. bill.Select(Row)];
        if (bill.Any(b => b.Cost is not null))
        {
            rows.Add(new TableRow(
                Phrases.Say("plan.together"), Phrases.Say("plan.of-priced"), ["", "", Digits.Fixed(bill.Sum(b => b.Cost ?? 0), 0)]));
        }

        return Make(Phrases.Say("plan.prices-yours"), ["plan.part", "plan.how-much", "plan.price-of-one", "plan.cost"], rows);
    }

    /// <summary>Spring, water and need of each month.</summary>
    public Table Months()
    {
        List<TableRow> rows = [];
        for (int i = 0; i < 12; i++)
        {
            Band delivered = Delivered(i);
            double? need = plan.Enough?.NeedM3PerS[i];
            rows.Add(new TableRow(
                Dates.Name(new DateOnly(2000, i + 1, 1)), Rich.Empty,
                [
                    Flow(_best.Months.Count == 12 ? _best.Months[i].SupplyM3PerS : plan.Wish.SupplyFlowM3PerS),
                    Digits.Count(_best.Months.Count == 12 ? _best.Months[i].Running : _best.Count),
                    Day(delivered),
                    need is { } n ? PlanWords.Volume(LitresPerDay * n)!.Value : "–",
                    need is { } wanted ? Catalogue.Current.Say(Enough(delivered, wanted)) : "–",
                ]));
        }

        return Make(Phrases.Say("plan.per-month-caption"), ["plan.month", "plan.spring", "plan.rams-running", "plan.delivered-a-day", "plan.needed-a-day", "plan.verdict-enough"], rows);
    }

    /// <summary>The ways to do it with rams.</summary>
    public Table Ways() => Make(
        Phrases.Say("plan.ways-caption"), ["plan.rams", "plan.drive-pipe-each", "plan.length-each", "plan.delivered", "plan.verdict"],
        [.. plan.Choices.Select(c => new TableRow(Digits.Count(c.Count), Rich.Empty,
        [
            $"{PlanWords.Size(c.Size.Pipe.Size)} {Material(c)}", Show.Of(Kind.Length, c.Length.LengthM)!.Value.Trimmed(),
            Day(c.DeliveredM3PerS), PipeWords.Brief(c.Pipe.Verdict),
        ]))]);

    /// <summary>The other pumps: what each brings and takes, what wears, and what it costs where prices were given.</summary>
    public Terms Others() => new([.. plan.Alternatives.Select(a => (
        Phrases.Say($"plan.{a.Code}"), PlanWords.Of(PlanHeadline.Of(a)).Then(PlanWords.Of(a.Wear)).Then(Costs(a))))]);

    /// <summary>The same month by month: water a day of the rams and a turbine, and what the others take for the water needed.</summary>
    public Table OthersByMonth()
    {
        var by = plan.Alternatives.ToDictionary(a => a.Code);
        List<TableRow> rows = [];
        for (int i = 0; i < 12; i++)
        {
            Alternative mains = by["mains-pump"];
            rows.Add(new TableRow(Dates.Name(new DateOnly(2000, i + 1, 1)), Rich.Empty,
            [
                Day(Delivered(i)),
                by.TryGetValue("turbine-pump", out Alternative? turbine) ? Day(turbine.WaterIn(i)) : "–",
                PlanWords.Volume(LitresPerDay * mains.WaterIn(i).Middle)!.Value,
                Range(by["solar-pump"].Takes[i], 1, "W", 1, "W"),
                Range(by["engine-pump"].Takes[i], 1, "L", 1 / LitresPerGallon, "gal"),
                Range(mains.Takes[i], 1, "kWh", 1, "kWh"),
            ]));
        }

        return Make(
            Phrases.Say("plan.each-month"),
            ["plan.month", "plan.rams", "plan.turbine-short", "plan.matched", "plan.solar-takes", "plan.engine-takes", "plan.mains-takes"], rows);
    }

    /// <summary>A flow as water a day, both ends to two digits.</summary>
    public static Rich Day(Band flow) => Range(flow, LitresPerDay, "L", LitresPerDay / LitresPerGallon, "gal");

    /// <summary>The material of a drive pipe in the language that is spoken.</summary>
    public static string Material(RamChoice choice) => Catalogue.Current.Say($"materials.{choice.Size.Pipe.Material}");

    /// <summary>Key of the words for water beside a need.</summary>
    public static string Enough(Band delivered, double need) =>
        delivered.High < need ? "plan.too-little" : delivered.Low < need ? "plan.perhaps-too-little" : "plan.enough";

    private Band Delivered(int month) => plan.Enough?.DeliveredM3PerS[month]
        ?? (_best.Months.Count == 12 ? _best.Months[month].DeliveredM3PerS : _best.DeliveredM3PerS);

    private static Measure Range(Band band, double metric, string metricUnit, double us, string usUnit) =>
        new(Between(band, metric, metricUnit), Between(band, us, usUnit));

    private static MeasureText Between(Band band, double factor, string unit)
    {
        string low = PlanWords.TwoDigits(factor * band.Low);
        string high = PlanWords.TwoDigits(factor * band.High);
        return new MeasureText(low == high ? low : Phrases.Say("plan.between", ("low", low), ("high", high)), "", unit);
    }

    private static TableRow Row(BillItem item) => new(
        Phrases.Say($"plan.{item.Code}"), item.Detail is { } detail ? PlanWords.Of(detail) : Rich.Empty,
        [Amount(item), Price(item), item.Cost is { } cost ? Digits.Fixed(cost, 0) : "–"]);

    private static Rich Amount(BillItem item) => item.Unit switch
    {
        BillUnit.Piece => Digits.Fixed(item.Quantity, 0),
        BillUnit.Metre => Show.Of(Kind.Length, item.Quantity)!.Value.Trimmed(),
        _ => PlanWords.Tank(item.Quantity)!.Value,
    };

    // A price stands beside the amount it is of: by the metre or the foot, by the cubic metre or the gallon.
    private static Rich Price(BillItem item) => item.Price is not { } price ? "–" : item.Unit switch
    {
        BillUnit.Metre => new Measure(new(Digits.Fixed(price, 2), "", "/ m"), new(Digits.Fixed(FootM * price, 2), "", "/ ft")),
        BillUnit.CubicMetre => new Measure(new(Digits.Fixed(price, 2), "", "/ m³"), new(Digits.Fixed(LitresPerGallon / 1000 * price, 2), "", "/ gal")),
        _ => Digits.Fixed(price, 2),
    };

    private static Rich Costs(Alternative other)
    {
        string[] costs =
        [
            .. other.Bill.Where(b => b.Cost is not null).Select(b => Phrases.Say(
                b.IsYearly ? "plan.cost-a-year" : "plan.cost-once", ("cost", Digits.Fixed(b.Cost!.Value, 0)))),
        ];
        return costs.Length > 0 ? Phrases.Say("plan.costs", ("costs", string.Join(", ", costs))) : Rich.Empty;
    }

    private static Table Make(string caption, IReadOnlyList<string> heads, IReadOnlyList<TableRow> rows) =>
        new(caption, [.. heads.Select(h => Catalogue.Current.Say(h))], [new TableGroup(null, rows)]);

    private static Rich Flow(double flow) => Show.Of(Kind.Flow, flow, 2)!.Value;
}
