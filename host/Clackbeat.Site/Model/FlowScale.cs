using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Clackbeat.Site.Model;

/// <summary>
/// Flows by a bucket over flows by the pressure, found on one record and good for later ones of the same setting: what makes them
/// differ (bore, length, how the real ram strays from the model) stays as it is until the ram is changed.
/// </summary>
public sealed record FlowScale
{
    /// <summary>Expanded uncertainty taken where the file gives none, as a share (k = 2).</summary>
    public const double UsualUncertainty = 0.05;

    /// <summary>For the delivered flow; null when the test says nothing of it.</summary>
    public double? Delivered { get; init; }

    /// <summary>Its expanded uncertainty (k = 2), as a share.</summary>
    public double DeliveredUncertainty { get; init; } = UsualUncertainty;

    /// <summary>For the waste flow; null when the test says nothing of it.</summary>
    public double? Waste { get; init; }

    /// <summary>Its expanded uncertainty (k = 2), as a share.</summary>
    public double WasteUncertainty { get; init; } = UsualUncertainty;

    /// <summary>Day of the test.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>The setting it holds for, by <see cref="SetupOf"/>; null when nobody wrote it down.</summary>
    public string? Setup { get; init; }

    /// <summary>Somebody marked a change at the ram after the test.</summary>
    public bool IsMarkedSince { get; init; }

    /// <summary>The same, put out of use when somebody marked something at the ram after the day of the test.</summary>
    /// <param name="marked">Days of the marks.</param>
    public FlowScale After(IEnumerable<DateOnly> marked) => this with { IsMarkedSince = IsMarkedSince || marked.Any(m => m > Date) };

    /// <summary>Eight hexadecimal digits of what makes a setting: pipe, heads and waste valve.</summary>
    /// <param name="site">The ram.</param>
    public static string SetupOf(RamSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        (DrivePipe pipe, WasteValve valve) = (site.DrivePipe, site.WasteValve);
        double?[] numbers =
        [
            pipe.LengthM, pipe.BoreM, site.Supply.HeadM, site.Delivery.HeadM,
            valve.StrokeM, valve.MassKg, valve.SeatDiameterM, valve.SpringForceN, valve.SpringRateNPerM,
        ];
        string text = string.Join(' ', numbers.Select(n => n?.ToString("G6", CultureInfo.InvariantCulture) ?? "-"));
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.ASCII.GetBytes(text)))[..8];
    }
}
