using Clackbeat.Signal.States;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>Faults of sensor, wiring and tap line that would look like faults of the ram. Each limit is physical and says why.</summary>
internal static class SensorCheck
{
    // A spike touches the highest level with a sample or two a beat; a reading cut off stands there all through the delivery.
    private const double CutOffShare = 0.02;

    // A real converter flickers by a count; seconds of one value after others mean that nothing is read any more.
    private const double FrozenS = 5;

    // The usual sensor's noise is some thousandths of the delivery pressure; at a twentieth no feature of the beat survives.
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
                ? Fact.Of("sensor-under-range", ("under_kpa", underPa / 1000))
                : Fact.Of("sensor-flat"));
        }

        if (tally.LastRunS > FrozenS)
        {
            return Fault(0.8, Fact.Of("sensor-frozen", ("frozen_s", tally.LastRunS)));
        }

        if (input.Zero.IsWrong)
        {
            return Fault(0.99, ZeroFacts.Evidence(input.Zero)) with { Advice = ZeroFacts.Remedy(input.Zero) };
        }

        double supplyPa = input.SupplyPa;
        if (tally.VacuumShare > MostUnderVacuum)
        {
            return Fault(0.95, Fact.Of("sensor-under-vacuum", ("vacuum_share", tally.VacuumShare)));
        }

        if (tally.MeanPa is { } meanPa && meanPa < -(0.2 * supplyPa) - (ZeroShare * spanPa))
        {
            return Fault(0.95, Fact.Of("sensor-mean-wrong", ("mean_kpa", meanPa / 1000), ("supply_kpa", supplyPa / 1000)));
        }

        if (input.State.State == RamState.Beating && tally.TopShare > CutOffShare && tally.HighestPa > 3 * supplyPa)
        {
            return Fault(0.93, Fact.Of("sensor-cut-off", ("top_share", tally.TopShare), ("top_kpa", tally.HighestPa / 1000)));
        }

        double noise = tally.NoisePa / input.Hydraulics.PressurePa(input.Site.Delivery.HeadM);
        if (noise > AbsurdNoise)
        {
            return Fault(0.93, Fact.Of("sensor-noisy", ("noise_kpa", tally.NoisePa / 1000), ("delivery_share", noise)));
        }

        return TapLine.SwingS(input) is { } swingS
            ? Fault(0.9, Fact.Of(
                "sensor-tap-rings",
                ("swing_ms", 1000 * swingS),
                ("ringing_m_per_s", 4 * input.Site.DrivePipe.LengthM / swingS),
                ("wave_speed_m_per_s", input.Hydraulics.WaveSpeedMPerS)))
            : null;
    }

    private static Finding Fault(double probability, Fact evidence) =>
        new(Conditions.SensorFault, probability, [evidence], ConditionTraits.Advice(Conditions.SensorFault))
        {
            Parts = [ConditionTraits.Of(Conditions.SensorFault).Where],
        };
}
