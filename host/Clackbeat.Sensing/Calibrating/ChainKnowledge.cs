using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Sensing.Calibrating;

/// <summary>
/// What is known of a chain before any point was taken, as standard uncertainties in shares of the sensor's span. It
/// fills in for what few points can't tell: how far sensor and converter may bend between and beyond them.
/// </summary>
public sealed record ChainKnowledge
{
    // Limits of the ESP32's converter by its maker (raw error 60 mV, 12 counts of non-linearity, reference 1000 to 1200 mV).
    private const double ZeroLimitV = 0.060;
    private const double NonlinearityLimitCounts = 12;
    private const double ReferenceLimitShare = 0.09;

    // A regulated 5 V supply with its cable, over load and temperature; common practice.
    private const double SupplyDriftLimitShare = 0.02;

    /// <summary>Zero, span, bow and sway of divider or shunt and converter.</summary>
    public required IReadOnlyList<double> Electric { get; init; }

    /// <summary>Zero, span, bow and sway of the sensor itself.</summary>
    public required IReadOnlyList<double> Sensor { get; init; }

    /// <summary>Ripples beyond these terms, share of the span.</summary>
    public required double RippleShare { get; init; }

    /// <summary>Effect of a moving supply, share of the reading.</summary>
    public required double SupplyShare { get; init; }

    /// <summary>Takes it from the data sheets; a limit ± b counts as a standard uncertainty b/√3 (JCGM 100:2008, 4.3.7).</summary>
    /// <param name="path">The chain.</param>
    /// <param name="accuracyShareOfSpan">The sensor's limit of error by its data sheet; half of it may be bow.</param>
    /// <param name="gainLimitShare">Limit of error of divider or shunt from its resistors' tolerance.</param>
    /// <param name="supplyIsRead">The supply is read with every point and in use.</param>
    public static ChainKnowledge FromDataSheets(
        SignalPath path, double accuracyShareOfSpan, double gainLimitShare, bool supplyIsRead)
    {
        double windowV = path.SignalGain * (path.Output.High - path.Output.Low);
        // One limit holds for bow, sway and ripple together; each is taken half as strong as the one before.
        double bow = Standard(NonlinearityLimitCounts * path.Converter.StepV / windowV) / Math.Sqrt(1 + 0.25 + 0.0625);
        double zero = Standard(ZeroLimitV / windowV);
        bool follows = path.Output.FollowsSupply;
        // Read against the supply the converter's reference cancels, but its zero then shifts the supply's reading too.
        double reference = follows && supplyIsRead
            ? Standard(ZeroLimitV / (path.SupplyGain * path.SupplyV))
            : Standard(ReferenceLimitShare);
        double supply = (follows, supplyIsRead) switch
        {
            (false, _) => 0,
            (true, true) => Standard(SupplyDriftLimitShare) * reference,
            (true, false) => Standard(SupplyDriftLimitShare),
        };
        double accuracy = Standard(accuracyShareOfSpan);
        return new ChainKnowledge
        {
            Electric = [zero, Math.Sqrt((reference * reference) + Math.Pow(Standard(gainLimitShare), 2)), bow, bow / 2],
            Sensor = [2 * accuracy, 2 * accuracy, accuracy / 2, accuracy / 4],
            RippleShare = bow / 4,
            SupplyShare = supply,
        };
    }

    private static double Standard(double limit) => limit / Math.Sqrt(3);
}
