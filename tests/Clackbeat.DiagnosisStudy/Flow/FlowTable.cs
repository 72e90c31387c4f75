using System.Globalization;
using System.Text.Json;
using Clackbeat.DiagnosisStudy.Records;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.DiagnosisStudy.Flow;

/// <summary>Flows found on drawn rams beside the true ones, a row a record. Records are kept in a folder, since running a ram takes longer than reading it.</summary>
internal static class FlowTable
{
    private const string Header = "ram,case,severity,material,sections,valve,snifter_m,snifter_told,stand_pipe,stand_told,lift_over_fall,rate_hz,delivered_m3s,found_m3s,u_m3s,waste_m3s,waste_found_m3s,waste_u_m3s,efficiency,efficiency_found,efficiency_u,wave_share,wave_speed,wave_speed_u,loss_factor,head_found,end_velocity,end_expected,limits";

    // What is expected at the end of delivery is this share of a wave's step.
    private const double ZeroFlowShare = -0.15;

    /// <summary>Measures the rams of a set and writes the table.</summary>
    public static void Write(string folder, string table, FieldSet set, int first, int count)
    {
        Directory.CreateDirectory(folder);
        var rows = new List<string> { Header };
        foreach (FieldRam ram in FieldRam.Of(set, first + count).Skip(first))
        {
            rows.AddRange(FlowCase.Of(ram).Select(one => Row(folder, one)).OfType<string>());
        }

        File.WriteAllLines(table, rows);
    }

    private static string? Row(string folder, FlowCase one)
    {
        if (Known(folder, one) is not (var path, { } truth))
        {
            return null;
        }

        RamAnalysis found = Analyse(one.Ram.Site, RecordFile.Read(path));
        return string.Join(',',
        [
            Text(one.Ram.Number), one.Name, Text(one.Fault.Severity), one.Ram.Site.DrivePipe.Material.ToString(),
            Text(one.Ram.Built.DrivePipe.Sections.Count), one.Ram.Built.WasteValve.Kind.ToString() ?? "",
            Text(one.Ram.Built.AirVessel.SnifterBoreM ?? 0), Text(one.Ram.Site.AirVessel.SnifterBoreM ?? 0),
            Text(one.Ram.Built.Supply.StandPipe?.BoreM ?? 0), Text(one.Ram.Site.Supply.StandPipe?.BoreM ?? 0),
            Text(one.Ram.Built.Delivery.HeadM / one.Ram.Built.Supply.HeadM), Text(one.Ram.Sensor.RateHz),
            .. Beside(found, truth),
        ]);
    }

    /// <summary>True flows of a case, and what is found on its record; null where the ram doesn't beat.</summary>
    public static (FlowTruth Truth, RamAnalysis Found)? Measured(string folder, FlowCase one) => Known(folder, one) is (var path, { } truth)
        ? (new FlowTruth(double.Parse(truth[0], CultureInfo.InvariantCulture), double.Parse(truth[1], CultureInfo.InvariantCulture)),
            Analyse(one.Ram.Site, RecordFile.Read(path)))
        : null;

    /// <summary>Where a record lies, and its truth; the truth is null where the ram doesn't beat.</summary>
    private static (string Path, string[]? Truth) Known(string folder, FlowCase one)
    {
        string path = Path.Combine(folder, FormattableString.Invariant($"{one.Ram.Set}-{one.Ram.Number:00000}-{one.Name}.bin"));
        if (!File.Exists(path))
        {
            Make(path, one);
        }

        string[] truth = File.ReadAllText(path + ".truth").Split(',');
        return (path, truth.Length < 3 ? null : truth);
    }

    /// <summary>The same for traces of another origin, NAME-CASE.csv beside NAME.site.toml, with their truth beside them; leaks and stops are left out.</summary>
    public static void WriteTraces(string folder, string table)
    {
        var rows = new List<string> { Header };
        foreach (string path in Directory.EnumerateFiles(folder, "*.csv").Order(StringComparer.Ordinal))
        {
            string name = Path.GetFileNameWithoutExtension(path);
            if (name.Contains("leaking", StringComparison.Ordinal) || name.Contains("stopped", StringComparison.Ordinal))
            {
                continue;
            }

            string ram = name[..name.IndexOf('-', StringComparison.Ordinal)];
            string own = Path.Combine(folder, ram + name[(name.LastIndexOf('-') + 1)..] + ".site.toml");
            RamSite site = SiteFile.Load(File.Exists(own) ? own : Path.Combine(folder, ram + ".site.toml"));
            JsonElement truth = JsonDocument.Parse(File.ReadAllText(Path.ChangeExtension(path, ".truth.json"))).RootElement;
            (double[] times, double[] pressures) = TraceReader.Read(path);
            RamAnalysis found = Analyse(site, (times, pressures));
            rows.Add(string.Join(',',
            [
                ram, name[(ram.Length + 1)..], "", site.DrivePipe.Material.ToString(), Text(site.DrivePipe.Sections.Count), "WeightedPlug", "", "", "", "",
                Text(site.Delivery.HeadM / site.Supply.HeadM), Text(Math.Round((times.Length - 1) / (times[^1] - times[0]))),
                .. Beside(found,
                [
                    Text(truth.GetProperty("delivered_Lmin").GetDouble() / 60e3), Text(truth.GetProperty("waste_Lmin").GetDouble() / 60e3),
                    Text(truth.GetProperty("efficiency_daubuisson_lift").GetDouble()),
                ]),
            ]));
        }

        File.WriteAllLines(table, rows);
    }

    private static RamAnalysis Analyse(RamSite site, (double[] TimesS, double[] PressuresPa) record)
    {
        var analyser = new RamAnalyser(site);
        analyser.Add(record.TimesS, record.PressuresPa);
        return analyser.Finish("a record of the study");
    }

    private static string[] Beside(RamAnalysis found, string[] truth) =>
    [
        truth[0], .. Of(found.Flow?.DeliveredM3PerS), truth[1], .. Of(found.Flow?.WasteM3PerS), truth[2], .. Of(found.Efficiency?.DAubuisson), WaveShare(found),
        .. Of(found.DrivePipe.WaveSpeedMPerS), Column(found, c => c.LossFactor), Column(found, c => c.SupplyHeadM),
        Column(found, c => c.VelocityAtDeliveryEnd), Column(found, c => c.ExpectedAtDeliveryEnd),
        string.Join(';', found.Limits.Select(l => l.Code).Where(c => c.StartsWith("flow", StringComparison.Ordinal))),
    ];

    /// <summary>The velocity step of a wave over the closing velocity; empty where the flow was withheld.</summary>
    private static string WaveShare(RamAnalysis found) => found is { Column: { } column, Flow.ClosingVelocityMPerS: { } closing }
        ? Text(column.ExpectedAtDeliveryEnd / ZeroFlowShare / closing.Value)
        : "";

    private static string Column(RamAnalysis found, Func<FlowFeatures, double> number) => found.Column is { } column ? Text(number(column)) : "";

    private static void Make(string path, FlowCase one)
    {
        RamSimulation simulation = one.Start();
        List<VirtualSample> samples = [.. simulation.Samples(FlowCase.LengthS)];
        RecordFile.Write(path, [.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        double beatS = simulation.Totals.DurationS / Math.Max(1, simulation.Totals.Beats);
        bool beats = simulation.Totals.Beats >= 6 && simulation.Totals.DurationS > FlowCase.LengthS - (4 * beatS);
        (double q, double w) = (simulation.Totals.DeliveredM3 / simulation.Totals.DurationS, simulation.Totals.WasteM3 / simulation.Totals.DurationS);
        double efficiency = beats ? RamEfficiency.DAubuisson(q, w, simulation.Totals.SupplyHeadM, simulation.Totals.DeliveryHeadM) : 0;
        File.WriteAllText(path + ".truth", beats ? string.Join(',', Text(q), Text(w), Text(efficiency)) : "");
    }

    private static string[] Of(Figure? figure) => figure is { } f ? [Text(f.Value), Text(f.U)] : ["", ""];

    private static string Text(double value) => value.ToString("G7", CultureInfo.InvariantCulture);
}

/// <summary>What really flowed.</summary>
/// <param name="DeliveredM3PerS">Through the delivery valve [m³/s].</param>
/// <param name="WasteM3PerS">Through the waste valve [m³/s].</param>
internal readonly record struct FlowTruth(double DeliveredM3PerS, double WasteM3PerS);
