using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Analysis;

/// <summary>
/// The sensor's zero error as the open phases tell it (the open valve's law leaves the zero as a number of its own), taken out of every
/// pressure that is given. What the data sheet says of the zero and what the fit found are brought together by their uncertainties
/// (least squares, JCGM 102:2011 §7); the corrected pressures carry the uncertainty that is left (JCGM 100:2008 §3.2.4, F.2.4.5).
/// </summary>
/// <param name="ShiftPa">What the sensor reads too high [Pa].</param>
/// <param name="StandardPa">Standard uncertainty of it [Pa].</param>
internal readonly record struct ZeroCorrection(double ShiftPa, double StandardPa)
{
    /// <summary>Nothing is known beyond the data sheet.</summary>
    public static ZeroCorrection None { get; }

    /// <summary>The correction of a record.</summary>
    /// <param name="sensor">The sensor.</param>
    /// <param name="flow">What the fit found; null without one.</param>
    public static ZeroCorrection Of(Sensor sensor, FlowResult? flow)
    {
        if (flow is not { DrivePipe.SensorBiasPa: { } biasPa, SensorBiasUncertaintyPa: { } expandedPa } || !(expandedPa > 0))
        {
            return None;
        }

        double sheet = Math.Pow(SensorAccuracy.ZeroPa(sensor), 2);
        double found = Math.Pow(0.5 * expandedPa, 2);
        return sheet > 0 ? new ZeroCorrection(biasPa * sheet / (sheet + found), Math.Sqrt(sheet * found / (sheet + found))) : None;
    }

    /// <summary>A pressure without the error [Pa].</summary>
    public double? Of(double? pressurePa) => pressurePa - ShiftPa;

    /// <summary>A beat without the error.</summary>
    public Beat Of(Beat beat) => beat with
    {
        PeakPa = beat.PeakPa - ShiftPa,
        PeakEstimatePa = beat.PeakEstimatePa - ShiftPa,
        DeliveryPa = beat.DeliveryPa - ShiftPa,
        SuctionPa = beat.SuctionPa - ShiftPa,
        OpenStartPa = beat.OpenStartPa - ShiftPa,
    };

    /// <summary>What is told of it, once; null where the zero can't be told from none.</summary>
    public Fact? Said => Math.Abs(ShiftPa) <= 2 * StandardPa ? null
        : ShiftPa > 0 ? Fact.Of("zero-reads-high", ("zero_kpa", ShiftPa / 1000), ("zero_u_kpa", 2 * StandardPa / 1000))
        : Fact.Of("zero-reads-low", ("zero_kpa", -ShiftPa / 1000), ("zero_u_kpa", 2 * StandardPa / 1000));
}
