namespace Clackbeat.Hydraulics.Rating;

/// <summary>
/// Peak against allowable with its uncertainty, after JCGM 106:2012: accepted only with the expanded uncertainty on the safe
/// side, rejected without waiting for it.
/// </summary>
internal static class PeakJudge
{
    /// <summary>The verdict.</summary>
    /// <param name="peakPa">Peak [Pa].</param>
    /// <param name="uncertaintyPa">Expanded uncertainty [Pa]; null when nobody gave one.</param>
    /// <param name="unbounded">The peak may be higher by an unknown amount.</param>
    /// <param name="allowablePa">Allowable [Pa].</param>
    internal static PipeVerdict Verdict(double? peakPa, double? uncertaintyPa, bool unbounded, double? allowablePa)
    {
        if (peakPa is not { } peak || allowablePa is not { } allowable || !double.IsFinite(peak))
        {
            return PipeVerdict.Unknown;
        }

        // A peak that is already too high stays too high, whatever the sensor missed.
        if (peak > allowable)
        {
            return PipeVerdict.Over;
        }

        if (peak + (uncertaintyPa ?? 0) > allowable)
        {
            return PipeVerdict.Near;
        }

        return unbounded || uncertaintyPa is null ? PipeVerdict.Unknown : PipeVerdict.Within;
    }
}
