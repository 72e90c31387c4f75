using Clackbeat.Signal.Figures;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>Levels and times against which single beats are measured.</summary>
/// <param name="OpenPa">Level at rest with the waste valve open [Pa].</param>
/// <param name="JumpPa">From there to the delivery plateau [Pa].</param>
/// <param name="PeriodS">Pipe period of the site [s].</param>
/// <param name="IntervalS">Median interval [s].</param>
internal readonly record struct BeatScale(double OpenPa, double JumpPa, double PeriodS, double IntervalS);

/// <summary>Marks of one beat: when its delivery ends and how, what its suction, plateau and open phase are like.</summary>
/// <param name="EndS">Last fall through half the jump [s after closure].</param>
/// <param name="FallTopS">Time from 0.8 to 0.5 of the jump [s].</param>
/// <param name="FallFootS">Time from 0.5 to 0.2 of the jump [s].</param>
/// <param name="Fullness">Mean pressure from closure to the foot of the fall, of the jump, each sample at most 1.</param>
/// <param name="SuctionDepth">Lowest pressure under the open level, of the jump.</param>
/// <param name="SuctionS">Area under the open level over the jump [s].</param>
/// <param name="Early">Early plateau over the open level, of the jump.</param>
/// <param name="Middle">Middle of the plateau, of the jump.</param>
/// <param name="Late">Late plateau, of the jump.</param>
/// <param name="RestPa">Over the open level early in the open phase, the column nearly at rest [Pa].</param>
/// <param name="QuarterPa">Over the open level a quarter into the open phase [Pa].</param>
/// <param name="HalfPa">Over the open level halfway through the open phase [Pa].</param>
/// <param name="ClosingPa">Over the open level shortly before the next closure [Pa].</param>
/// <param name="MeanPa">Mean of the whole beat over the open level [Pa].</param>
/// <param name="LengthS">Length of the beat [s].</param>
/// <param name="TailS">Area over the open level after the end of delivery, over the jump [s].</param>
/// <param name="RiseS">From 0.15 to 0.6 of the jump as the waste valve shut [s]; null where that was not seen.</param>
internal readonly record struct BeatMarks(
    double EndS, double FallTopS, double FallFootS, double Fullness, double SuctionDepth, double SuctionS,
    double Early, double Middle, double Late, double RestPa, double QuarterPa, double HalfPa, double ClosingPa, double MeanPa,
    double LengthS, double TailS, double? RiseS)
{
    // Delivery and recoil never take as much of a beat: the delivery head is a multiple of the supply head.
    private const double LongestDelivery = 0.7;

    // The plug begins to rise some hundredths of a beat before it shuts; the head before that is the open valve's.
    private const double ClosingFrom = 0.84;
    private const double ClosingTo = 0.91;

    /// <summary>Measures a beat; null when a gap or a missing fall makes it unfit.</summary>
    /// <param name="curve">The beat, time 0 at its closure.</param>
    /// <param name="scale">Levels and times.</param>
    public static BeatMarks? Of(TraceCurve curve, BeatScale scale)
    {
        var beat = new CurveReader(curve, scale);
        double lastS = beat.LastS;
        if (lastS < 0.3 * scale.IntervalS || beat.HasGap)
        {
            return null;
        }

        double limitS = LongestDelivery * lastS;
        if (beat.LastAbove(0.5, limitS) is not { } endS || endS < 2e-3)
        {
            return null;
        }

        double topS = Math.Min(endS, beat.LastAbove(0.8, limitS) ?? endS);
        double footS = Math.Max(endS, beat.LastAbove(0.2, limitS) ?? endS);
        (double depth, double suctionS) = beat.Suction(endS, Math.Min(endS + (0.4 * (lastS - endS)), lastS));
        double openS = lastS - footS;
        double At(double share, double halfWidth) =>
            beat.MeanPa(footS + ((share - halfWidth) * openS), footS + ((share + halfWidth) * openS));
        return new BeatMarks(
            endS, endS - topS, footS - endS, beat.Fullness(footS), depth, suctionS,
            beat.Median(0.15 * endS, 0.35 * endS), beat.Median(0.4 * endS, 0.6 * endS), beat.Median(0.65 * endS, 0.85 * endS),
            At(0.15, 0.05), At(0.3, 0.05), At(0.55, 0.05), beat.MeanPa(ClosingFrom * lastS, ClosingTo * lastS),
            beat.MeanPa(0, lastS), lastS, beat.Tail(endS, endS + (0.3 * (lastS - endS))),
            beat.Rise(0.15, 0.6, -0.1 * scale.IntervalS, 0.5 * endS));
    }
}
