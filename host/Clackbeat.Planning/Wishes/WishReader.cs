using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Planning.Bills;
using Clackbeat.Planning.Pipework;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Planning.Wishes;

/// <summary>Reads a wish as people write it, on a command line or in a form.</summary>
/// <param name="written">What was written in a field of <see cref="WishFields"/>; nothing where it was left empty.</param>
/// <param name="units">The reader's units: prices are by the metre and litre, or by the foot and gallon.</param>
public sealed class WishReader(Func<string, IReadOnlyList<string>> written, Units units)
{
    private const double FootM = 0.3048;
    private const double GallonM3 = 3.785411784e-3;
    private const double LitresPerM3 = 1000;

    private readonly FieldReader _fields = new(written);

    /// <summary>Reads it.</summary>
    /// <exception cref="WishException">A field can't be read.</exception>
    public PlanWish Read()
    {
        (double? shortest, double? longest) = Lengths();
        var need = new NeedReader(written);
        return new PlanWish
        {
            SupplyHeadM = _fields.Required(WishFields.SupplyHead, QuantityKind.Length),
            SupplyFlowM3PerS = _fields.Flow(WishFields.SupplyFlow) ?? throw FieldReader.Slip(WishFields.SupplyFlow, Fact.Of("plan-slip-missing")),
            LiftM = _fields.Required(WishFields.Lift, QuantityKind.Length),
            DryFlowM3PerS = _fields.Flow(WishFields.DryFlow),
            MonthlyFlowM3PerS = _fields.Text(WishFields.SupplyMonths) is { } months
                ? FieldReader.Twelve(WishFields.SupplyMonths, months, QuantityKind.Flow)
                : [],
            Kind = Kind(),
            ShortestDrivePipeM = shortest,
            LongestDrivePipeM = longest,
            DeliveryLengthM = _fields.Length(WishFields.DeliveryLength),
            DriveMaterial = Material(),
            InchMain = units == Units.Us,
            WaterTemperatureC = Temperature(),
            MonthlyNeedM3PerS = need.Read(),
            Uses = need.Uses(),
            Shortfall = need.Shortfall(),
            SunHours = _fields.Text(WishFields.SunHours) is { } hours ? FieldReader.OneOrTwelve(WishFields.SunHours, hours, 0, 14) : [],
            Prices = Prices(),
        };
    }

    private double Temperature() => _fields.Quantity(WishFields.Temperature, QuantityKind.Temperature) switch
    {
        null => 12,
        >= 0 and <= 40 and { } celsius => celsius,
        _ => throw FieldReader.Slip(WishFields.Temperature, Fact.Of("plan-slip-temperature")),
    };

    private (double? Shortest, double? Longest) Lengths() =>
        _fields.Text(WishFields.DriveLength) is { } text && QuantityText.TryParseRange(QuantityKind.Length, text, out double low, out double high, out _)
            ? (low, high)
            : (null, _fields.Length(WishFields.DriveLength));

    private RamKind Kind() => _fields.Text(WishFields.Kind)?.Trim().ToUpperInvariant() switch
    {
        "CAST" or "BOUGHT" or "COMMERCIAL" => RamKind.Cast,
        "HOME-MADE" or "HOMEMADE" => RamKind.HomeMade,
        null or "UNKNOWN" => RamKind.Unknown,
        _ => throw FieldReader.Slip(WishFields.Kind, Fact.Of("plan-slip-kind", ("text", _fields.Text(WishFields.Kind)!), ("known", "cast, home-made, unknown"))),
    };

    private PipeMaterial Material()
    {
        if (_fields.Text(WishFields.Material) is not { } name)
        {
            return PipeMaterial.GalvanisedSteel;
        }

        return MaterialNames.TryParse(name, out PipeMaterial material) && DriveSize.Materials.Contains(material)
            ? material
            : throw FieldReader.Slip(WishFields.Material, Fact.Of(
                "plan-slip-material", ("text", name), ("known", string.Join(", ", DriveSize.Materials.Select(MaterialNames.Of)))));
    }

    private Dictionary<string, double> Prices()
    {
        Dictionary<string, double> prices = [];
        foreach ((string item, double number) in _fields.Pairs(WishFields.Price, PriceNames.All))
        {
            prices[item] = number / OfOne(item);
        }

        return prices;
    }

    // What a price is of, in the units that a plan counts in: metres, cubic metres, litres.
    private double OfOne(string item) => (units, item) switch
    {
        (Units.Us, PriceNames.DrivePipe or PriceNames.Main) => FootM,
        (Units.Us, PriceNames.Tank) => GallonM3,
        (Units.Us, PriceNames.Fuel) => LitresPerM3 * GallonM3,
        _ => 1,
    };
}
