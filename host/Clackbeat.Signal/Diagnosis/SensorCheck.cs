using System.Globalization;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>Faults of sensor, wiring and tap line that would look like faults of the ram. Each limit is physical and says why.</summary>
internal static class SensorCheck
{
    // A spike touches the highest level with a sample or two a beat; a reading cut off stands there all through the delivery.
    private const double CutOffShare = 0.02;

    // A real converter flickers by a count; seconds of one value after others mean that nothing is read any more.
    private const double FrozenS = 5;

    // The usual sensor's noise is some thousandths of the delivery pressure; at a twentieth no sign of the beat survives.
    private const double AbsurdNoise = 0.04;

    // Supply head that a wrong zero alone may hide [Pa]: a per cent of the sensor's span is a bad sensor.
    private const double ZeroShare = 0.008;

    // A spike of the sensor's own may touch it; a tenth of a second in ten seconds is none.
    private const double MostUnderVacuum = 0.01;

    /// <summary>The fault, or null when the reading can be believed.</summary>
    public static Finding? Look(DiagnosisInput input)
    {
        RecordTally tally = input.Tally;
        double spanPa = input.Site.Sensor.RangeHighPa - input.Site.Sensor.RangeLowPa;
        if (tally.Flat)
        {
            double underPa = input.Site.Sensor.RangeLowPa - tally.LowestPa;
            return Fault(0.97, underPa > 0.02 * spanPa
                ? Text($"Every sample stands {underPa / 1000:0} kPa under the sensor's range: a broken wire or no supply voltage.")
                : "Every sample has the same value: the sensor, its cable or its converter is dead.");
        }

        if (tally.LastRunS > FrozenS)
        {
            return Fault(0.8, Text($"The last {tally.LastRunS:0} s hold one and the same value, where a live sensor flickers."));
        }

        double supplyPa = input.SupplyPa;
        if (tally.VacuumShare > MostUnderVacuum)
        {
            return Fault(0.95, Text($"{100 * tally.VacuumShare:0} % of the samples lie under a perfect vacuum, which no water can. Swapped polarity or a wrong zero reads so."));
        }

        if (tally.MeanPa < -(0.2 * supplyPa) - (ZeroShare * spanPa))
        {
            return Fault(0.95, Text($"The mean pressure is {tally.MeanPa / 1000:0.0} kPa; it should be near {supplyPa / 1000:0.0} kPa. Swapped polarity or a wrong zero reads so."));
        }

        if (input.State.State == RamState.Beating && tally.TopShare > CutOffShare && tally.HighestPa > 3 * supplyPa)
        {
            return Fault(0.93, Text($"{100 * tally.TopShare:0} % of all samples stand at one highest level, {tally.HighestPa / 1000:0} kPa, without a spike: the reading is cut off there."));
        }

        double noise = tally.NoisePa / input.Hydraulics.PressurePa(input.Site.Delivery.HeadM);
        if (noise > AbsurdNoise)
        {
            return Fault(0.93, Text($"The reading jumps by {tally.NoisePa / 1000:0.0} kPa from sample to sample at all times, {100 * noise:0} % of the delivery pressure: a bad earth, a loose plug or a disturbed cable."));
        }

        return TapLine.SwingS(input) is { } swingS
            ? Fault(0.9, Text($"After each delivery the reading swings on, once in {1000 * swingS:0} ms, though the open waste valve lets the water go. A drive pipe that rang so would have a wave speed of {4 * input.Site.DrivePipe.LengthM / swingS:0} m/s; this one has {input.Hydraulics.WaveSpeedMPerS:0} m/s. Air in the line to the sensor does that, and the true peaks can't be read."))
            : null;
    }

    private static Finding Fault(double probability, string evidence)
    {
        ConditionText text = ConditionText.Of(Conditions.SensorFault);
        return new Finding(Conditions.SensorFault, probability, [evidence], text.Advice) { Parts = [text.Where] };
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
