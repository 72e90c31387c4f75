using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;

namespace Clackbeat.Twin.Shifts;

/// <summary>A part of a ram that a twin follows from record to record.</summary>
public enum RamPart
{
    /// <summary>Travel of the waste valve, by how far it opens.</summary>
    Stroke,

    /// <summary>Weight or spring that holds the waste valve open.</summary>
    Weight,

    /// <summary>Losses of strainer, intake and drive pipe.</summary>
    Losses,

    /// <summary>Head in the air vessel: the outlet and what the delivery main takes.</summary>
    VesselHead,

    /// <summary>Supply level.</summary>
    SupplyHead,

    /// <summary>Mass and closing force of the delivery valve: how late it seats.</summary>
    DeliveryValve,

    /// <summary>Free gas along the drive pipe.</summary>
    PipeGas,
}

/// <summary>How a part differs between two records of one ram.</summary>
/// <param name="Part">The part.</param>
/// <param name="LogRatio">Natural logarithm of what it is now over what it was.</param>
/// <param name="StandardU">Standard uncertainty of that.</param>
public readonly record struct TwinShift(RamPart Part, double LogRatio, double StandardU)
{
    private const double LeftOfValve = 0.5;

    /// <summary>It exceeds its expanded uncertainty, k = 2.</summary>
    public bool IsClear => Math.Abs(LogRatio) > 2 * StandardU;

    /// <summary>All parts, by two twins of the same ram.</summary>
    /// <remarks>
    /// The two fits' uncertainties are added as if independent. What both records share (bore, sensor, priors) cancels: of stroke and weight
    /// it leaves half, by the rams that chose (docs/twin.md).
    /// </remarks>
    /// <param name="before">The twin of the earlier record.</param>
    /// <param name="now">The twin of the later one.</param>
    public static IReadOnlyList<TwinShift> Between(FittedTwin before, FittedTwin now)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(now);
        double share = 0.5 * (PartValue.GapShare(before) + PartValue.GapShare(now));
        return [.. Enum.GetValues<RamPart>().Select(p =>
        {
            TwinShift shift = Of(p, PartValue.Of(p, before), PartValue.Of(p, now));
            return p == RamPart.Stroke ? OfGap(shift, share, PartValue.GapShareU(before)) : shift;
        })];
    }

    // Only the gap goes with the stroke: of the open valve's loss it has a share s, so that d ln A = s d ln stroke.
    private static TwinShift OfGap(TwinShift area, double share, double shareU) => area with
    {
        LogRatio = area.LogRatio / share,
        StandardU = Math.Sqrt((area.StandardU * area.StandardU) + Math.Pow(area.LogRatio * shareU / share, 2)) / share,
    };

    private static TwinShift Of(RamPart part, PartValue before, PartValue now) =>
        new(part, now.Log - before.Log, Left(part) * Math.Sqrt((before.StandardU * before.StandardU) + (now.StandardU * now.StandardU)));

    private static double Left(RamPart part) => part is RamPart.Stroke or RamPart.Weight ? LeftOfValve : 1;
}

/// <summary>A part as one twin has it. The stroke stands for the effective area of the open waste valve [m²].</summary>
/// <param name="Log">Natural logarithm of it, in SI or over what a designed ram has.</param>
/// <param name="StandardU">Standard uncertainty of that.</param>
public readonly record struct PartValue(double Log, double StandardU)
{
    /// <summary>A part by a twin.</summary>
    /// <param name="part">The part.</param>
    /// <param name="twin">The twin.</param>
    public static PartValue Of(RamPart part, FittedTwin twin)
    {
        ArgumentNullException.ThrowIfNull(twin);
        TwinFrame frame = twin.Frame;
        return part switch
        {
            RamPart.Stroke => Over(twin, frame.OpenAreaM2, TwinParameter.OpenArea),
            RamPart.Weight => Over(twin, frame.LiftingHeadM, TwinParameter.LiftingHead),
            RamPart.Losses => Over(twin, frame.LossFactor, TwinParameter.Losses),
            RamPart.VesselHead => Over(twin, frame.VesselHeadM, TwinParameter.VesselHead),
            RamPart.SupplyHead => Over(twin, frame.Site.Supply.HeadM, TwinParameter.SupplyHead),
            RamPart.DeliveryValve => Over(twin, 1, TwinParameter.Lateness),
            _ => Over(twin, TwinFrame.UsualGasShare, TwinParameter.PipeGas),
        };
    }

    private static PartValue Over(FittedTwin twin, double start, TwinParameter parameter) =>
        new(Math.Log(start) + twin.Values[(int)parameter], Deviation(twin, parameter));

    internal static double GapShare(FittedTwin twin) => 1 / (1 + Math.Exp(-twin.Values[(int)TwinParameter.GapShare]));

    internal static double GapShareU(FittedTwin twin)
    {
        double share = GapShare(twin);
        return share * (1 - share) * Deviation(twin, TwinParameter.GapShare);
    }

    private static double Deviation(FittedTwin twin, TwinParameter parameter) =>
        Math.Sqrt(Math.Max(0, twin.Covariance[(int)parameter, (int)parameter]));
}
