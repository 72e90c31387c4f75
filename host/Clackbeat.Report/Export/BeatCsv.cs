using System.Globalization;
using Clackbeat.Signal.Beats;

namespace Clackbeat.Report.Export;

/// <summary>
/// Writes one row a beat: times in s, pressures in kPa gauge, velocity in m/s, volumes in L. Decimal points, commas
/// between cells, a cell left empty where the figure was withheld.
/// </summary>
public static class BeatCsv
{
    /// <summary>The header row.</summary>
    public const string Header =
        "beat,closure_s,interval_s,peak_kpa,delivery_kpa,suction_kpa,closing_velocity_m_per_s,delivered_l,waste_l";

    /// <summary>Writes header and rows; the writer stays open.</summary>
    public static void Write(TextWriter output, IEnumerable<Beat> beats)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(beats);
        output.Write(Header + "\n");
        foreach (Beat beat in beats)
        {
            output.Write(string.Join(',', Cells(beat)) + "\n");
        }
    }

    private static string[] Cells(Beat beat) =>
    [
        beat.Index.ToString(CultureInfo.InvariantCulture),
        Cell(Rounding.Seconds(beat.ClosureS)),
        Cell(Rounding.Seconds(beat.IntervalS)),
        Cell(Rounding.Value(beat.PeakPa / 1000)),
        Cell(Rounding.Value(beat.DeliveryPa / 1000)),
        Cell(Rounding.Value(beat.SuctionPa / 1000)),
        Cell(Rounding.Value(beat.Flow?.ClosingVelocityMPerS)),
        Cell(Rounding.Value(beat.Flow?.DeliveredM3 * 1000)),
        Cell(Rounding.Value(beat.Flow?.WasteM3 * 1000)),
    ];

    // A plain decimal, never an exponent, because spreadsheets in many languages stumble over one.
    private static string Cell(double? value) => value?.ToString("0.##########", CultureInfo.InvariantCulture) ?? "";
}
