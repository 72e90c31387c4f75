using System.CommandLine;
using Clackbeat.Planning.Bills;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands.Plan;

/// <summary>The options that say what is wanted.</summary>
internal sealed class PlanOptions
{
    private readonly Option<string>[] _options =
    [
        Text(WishFields.SupplyHead, "HEIGHT", "Fall: water level at the intake above the waste valve's outlet"),
        Text(WishFields.SupplyFlow, "FLOW", "What the spring gives to the rams in a usual month"),
        Text(WishFields.Lift, "HEIGHT", "Where the water is to arrive, above the waste valve's outlet"),
        Text(WishFields.DryFlow, "FLOW", "What the spring gives in the driest time"),
        Text(WishFields.SupplyMonths, "FLOWS", "The spring in each month, January first: \"60, 60, 55, … L/min\""),
        Text(WishFields.Kind, "KIND", "How the ram is made: cast (bought, its valves made for it), home-made (of pipe fittings and check valves) or unknown"),
        Text(WishFields.DriveLength, "LENGTH", "Longest drive pipe the ground allows, or a range: \"8 m to 30 m\""),
        Text(WishFields.DeliveryLength, "LENGTH", "Length of the delivery main"),
        Text(WishFields.Material, "MATERIAL", "Material of the drive pipe; galvanised steel if left out"),
        Text(WishFields.Temperature, "TEMPERATURE", "Temperature of the water"),
        Text(WishFields.SunHours, "HOURS", "Hours of full sun a day in each month, for the solar pump: one number or twelve"),
    ];

    private readonly Option<string[]> _price = new($"--{WishFields.Price}")
    {
        HelpName = "ITEM=NUMBER",
        Description = "Your price, in any one currency; repeatable. Of a piece, a metre of pipe, a m³ of tank, a litre of petrol; with --us of a foot "
            + $"and a gallon. Items: {string.Join(", ", PriceNames.All)}",
    };

    private readonly NeedOptions _need = new();
    private readonly Option<bool> _us = InUsUnits();

    /// <summary><c>--us</c></summary>
    public static Option<bool> InUsUnits() => new("--us") { Description = "Answer in US units: gallons, feet, psi, inch pipe" };

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option<string> option in _options)
        {
            command.Add(option);
        }

        _need.AddTo(command);
        command.Add(_price);
        command.Add(_us);
    }

    /// <summary>The reader's units.</summary>
    public Units UnitsOf(ParseResult line) => line.GetValue(_us) ? Units.Us : Units.Metric;

    /// <summary>Whether anything of a wish was given.</summary>
    public bool IsEmpty(ParseResult line) => !Array.Exists(_options, o => line.GetValue(o) is not null);

    /// <summary>Reads them.</summary>
    /// <exception cref="InputException">One of them is not what it should be.</exception>
    public PlanWish Read(ParseResult line) => Told(() => new WishReader(
        field => field == WishFields.Price ? line.GetValue(_price) ?? []
            : Array.Find(_options, o => o.Name == $"--{field}") is { } option ? Written(line, option)
            : _need.Written(line, field),
        UnitsOf(line)).Read());

    /// <summary>A slip in a field becomes a message that names the option.</summary>
    internal static T Told<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (WishException slip)
        {
            throw InputException.Of(slip, "option.wrong", ("option", $"--{slip.Field}"), ("why", slip.Problem));
        }
    }

    internal static IReadOnlyList<string> Written(ParseResult line, Option<string> option) => line.GetValue(option) is { } text ? [text] : [];

    internal static Option<string> Text(string field, string help, string description) =>
        new($"--{field}") { HelpName = help, Description = description };
}
