using System.Globalization;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Field;

namespace Clackbeat.DiagnosisStudy.Flow;

/// <summary>
/// What the ± of flows is made of, frozen for a test: one record a ram, so that the rows are independent, of rams whose waste valve has a
/// stop, each with the next of the cases. True over found, and the evidence behind the ±.
/// </summary>
internal static class CoverageTable
{
    private const string Header =
        "ram,case,delivered,waste,share,fitted_delivered,fitted_waste,fitted_share,share_found,wave_share,anchors_apart,bore,coarse,floats";

    /// <summary>Measures rams and writes the table.</summary>
    public static void Write(string folder, string table, FieldSet set, int count)
    {
        Directory.CreateDirectory(folder);
        var rows = new List<string> { Header };
        IEnumerable<FieldRam> rams = FieldRam.Of(set, 3 * count).Where(r => r.Built.WasteValve.Kind is WasteValveKind.WeightedPlug).Take(count);
        foreach ((FieldRam ram, int number) in rams.Select((r, i) => (r, i)))
        {
            FlowCase[] cases = [.. FlowCase.Of(ram)];
            FlowCase one = cases[number % cases.Length];
            if (FlowTable.Measured(folder, one) is (var truth, { Flow: { DeliveredM3PerS: { } q, WasteM3PerS: { } w }, Column: { } column }))
            {
                (double delivered, double waste) = (truth.DeliveredM3PerS, truth.WasteM3PerS);
                FlowEvidence e = column.Evidence;
                rows.Add(string.Join(',',
                [
                    ram.Number.ToString(CultureInfo.InvariantCulture), one.Name,
                    .. new[]
                    {
                        delivered / q.Value, waste / w.Value, delivered / (delivered + waste) / (q.Value / (q.Value + w.Value)), e.FittedDelivered, e.FittedWaste,
                        e.FittedShare, e.Share, e.WaveShare, e.AnchorsApart, e.Bore,
                    }.Select(n => n.ToString("G5", CultureInfo.InvariantCulture)), e.Coarse ? "1" : "0", e.Floats ? "1" : "0",
                ]));
            }
        }

        File.WriteAllLines(table, rows);
    }
}
