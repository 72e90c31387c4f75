using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands;

/// <summary>The figures of a record as a page of plain text.</summary>
internal static class AnalysisText
{
    public static void Write(Session session, RamSite site, RamAnalysis analysis, RamAnalysis? baseline)
    {
        session.Out.WriteLine($"{site.Name}: {State(analysis.State)}");
        session.Out.WriteLine();
        List<(string Name, string Value)> now = Rows(analysis, site.Units);
        if (baseline is null)
        {
            Layout.Pairs(session, now);
        }
        else
        {
            Dictionary<string, string> well = Rows(baseline, site.Units).ToDictionary(r => r.Name, r => r.Value);
            Layout.Table(session, ["", "Now", "When it was well"], now.Select(r => (IReadOnlyList<string>)[r.Name, r.Value, well.GetValueOrDefault(r.Name, "")]));
        }

        FindingsText.Write(session, analysis.Diagnosis);
        if (analysis.Limits.Count > 0)
        {
            session.Out.WriteLine();
            session.Out.WriteLine("What could not be told, or is weak");
            Layout.Bullets(session, analysis.Limits);
        }
    }

    private static string State(RamState state) => state switch
    {
        RamState.Beating => "it beats",
        RamState.StoppedShut => "it has stopped, the waste valve held shut",
        RamState.StoppedOpen => "it has stopped, the waste valve held open",
        _ => "no signal",
    };

    private static List<(string Name, string Value)> Rows(RamAnalysis analysis, Units units)
    {
        var rows = new List<(string, string)>();
        void Add(string name, string? value)
        {
            if (value is not null)
            {
                rows.Add((name, value));
            }
        }

        string? Pressure(double? pressurePa) =>
            pressurePa is { } p ? QuantityFormat.Format(QuantityKind.Pressure, p, units) : null;
        string? With(QuantityKind kind, Figure? figure) =>
            figure is { } f ? QuantityFormat.Format(kind, f.Value, f.U, units) : null;

        Add("Record", Text($"{QuantityFormat.Format(QuantityKind.Duration, analysis.Input.DurationS, units)}, {analysis.Input.Samples} samples, {analysis.Input.SampleRateHz:0} a second"));
        Add("Beats", Text($"{analysis.Beats.Count}"));
        Add("Beat rate", analysis.Beats.RatePerMin is { } rate ? Text($"{rate.Value:0.0} ± {Math.Max(rate.U, 0.1):0.0} a minute") : null);
        Add("Regularity", analysis.Beats.Irregularity is { } scatter ? Text($"intervals scatter by {100 * scatter:0.0} %") : null);
        Add("Peak surge", analysis.Pressure.PeakMedianPa is null ? null : $"{Pressure(analysis.Pressure.PeakMedianPa)} usually, {Pressure(analysis.Pressure.PeakMaxPa)} at most, as sampled");
        Add("True peak", With(QuantityKind.Pressure, analysis.Pressure.PeakTrue));
        Add("Delivery pressure", With(QuantityKind.Pressure, analysis.Pressure.Delivery));
        Add("Lowest suction", Pressure(analysis.Pressure.SuctionMinPa));
        Add("Mean pressure", Pressure(analysis.Pressure.MeanPa));
        Add("Pressure at rest", Pressure(analysis.Pressure.StaticPa));
        Add("Delivered", With(QuantityKind.Flow, analysis.Flow.DeliveredM3PerS));
        Add("To waste", With(QuantityKind.Flow, analysis.Flow.WasteM3PerS));
        Add("Velocity at closure", With(QuantityKind.Velocity, analysis.Flow.ClosingVelocityMPerS));
        Add("Efficiency (D'Aubuisson)", With(QuantityKind.Share, analysis.Efficiency.DAubuisson));
        Add("Wave speed", With(QuantityKind.Velocity, analysis.DrivePipe.WaveSpeedMPerS));
        return rows;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
