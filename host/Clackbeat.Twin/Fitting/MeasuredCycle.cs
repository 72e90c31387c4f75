using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Twin.Model;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Twin.Fitting;

/// <summary>What the record says of the mean beat, zero of the sensor corrected. Figures that the record can't give are null.</summary>
public sealed record MeasuredCycle
{
    /// <summary>Time from closure to closure [s].</summary>
    public required double IntervalS { get; init; }

    /// <summary>Closing velocity [m/s].</summary>
    public Figure? ClosingVelocityMPerS { get; init; }

    /// <summary>Waste a beat [m³].</summary>
    public Figure? WasteM3 { get; init; }

    /// <summary>Delivered a beat [m³].</summary>
    public Figure? DeliveredM3 { get; init; }

    /// <summary>Median of the peaks [m].</summary>
    public required double PeakM { get; init; }

    /// <summary>Mean of the delivery plateau [m].</summary>
    public required double PlateauM { get; init; }

    /// <summary>End of the delivery, from the closure on [s].</summary>
    public required double DeliveryEndS { get; init; }

    /// <summary>Start of the open phase, from the closure on [s].</summary>
    public required double OpenStartS { get; init; }

    /// <summary>The median beat, time 0 where the head is half way up.</summary>
    public required HeadCurve Head { get; init; }

    /// <summary>Reads it off an analysis; null without enough beats.</summary>
    /// <param name="site">The site.</param>
    /// <param name="analysis">The analysis of the record.</param>
    public static MeasuredCycle? Of(RamSite site, RamAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(analysis);
        if (analysis.Beats is not { RatePerMin: { } rate, IntervalMedianS: { } usualS } || analysis.Pressure.PeakMedianPa is not { } peakPa)
        {
            return null;
        }

        var hydraulics = SiteHydraulics.Of(site);
        double metre = hydraulics.PressurePa(1);
        // The analysis has taken the zero out of its figures; the picture is as the sensor read.
        double zeroPa = analysis.DrivePipe.SensorBiasPa ?? 0;
        double HeadOf(double pressurePa) => (pressurePa / metre) + site.Sensor.HeightM;
        TraceCurve typical = TypicalBeat.Of(analysis.Picture.Overlay, usualS);
        IReadOnlyList<Beat> steady = analysis.BeatList;
        if (typical.TimeS.Count < 16 || steady.Count < 2)
        {
            return null;
        }

        FlowSummary flow = analysis.WhileBeating?.Flow ?? analysis.Flow;
        double intervalS = 60 / rate.Value;
        double openS = Statistics.Median(steady.Select(b => b.OpenStartS - b.ClosureS));
        double plateauM = HeadOf(Statistics.Median(steady.Select(b => b.DeliveryPa)));
        var curve = new HeadCurve(
            typical.TimeS[0], (typical.TimeS[^1] - typical.TimeS[0]) / (typical.TimeS.Count - 1), [.. typical.PressurePa.Select(p => HeadOf(p - zeroPa))]);
        return new MeasuredCycle
        {
            IntervalS = intervalS,
            ClosingVelocityMPerS = flow.ClosingVelocityMPerS,
            WasteM3 = Times(flow.WasteM3PerS, intervalS),
            DeliveredM3 = Times(flow.DeliveredM3PerS, intervalS),
            PeakM = HeadOf(peakPa),
            PlateauM = plateauM,
            DeliveryEndS = Statistics.Median(steady.Select(b => b.DeliveryEndS - b.ClosureS)),
            OpenStartS = openS,
            Head = Alignment.Aligned(curve, plateauM),
        };
    }

    private static Figure? Times(Figure? figure, double factor) =>
        figure is { } f ? f with { Value = f.Value * factor, U = f.U * factor } : null;
}
