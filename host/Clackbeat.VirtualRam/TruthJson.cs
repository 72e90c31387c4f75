using System.Text.Json.Nodes;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.VirtualRam;

/// <summary>The truth beside a trace as JSON, schema <c>clackbeat.truth/1</c>: rounded to a millionth of what matters, units in the keys.</summary>
public static class TruthJson
{
    private const double LitresPerM3 = 1000;
    private const double LitresPerMin = 60_000;
    private const double Kilo = 1000;

    /// <summary>Makes the object from a run and the beats it raised.</summary>
    public static JsonObject Of(RamSimulation run, SimulationOptions options, IReadOnlyList<VirtualBeat> beats)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(beats);
        RamParameters ram = run.Engine.Parameters;
        return new JsonObject
        {
            ["schema"] = "clackbeat.truth/1",
            ["condition"] = run.Fault.Condition.Code(),
            ["severity"] = run.Fault.Severity,
            ["seed"] = options.Seed,
            ["supply_head_m"] = Round(ram.Supply.HeadM, 6),
            ["delivery_head_m"] = Round(ram.DeliveryMain.OutletHeadM, 6),
            ["main_leaks_at_share"] = ram.DeliveryMain.LeakAreaM2 > 0 ? Round(ram.DeliveryMain.LeakAt, 4) : null,
            ["wave_speed_m_per_s"] = Round(ram.DrivePipe.WaveSpeedMPerS, 3),
            ["pipe_period_s"] = Round(ram.Sections.Sum(s => 2 * s.LengthM / s.WaveSpeedMPerS), 7),
            ["sections"] = new JsonArray([.. ram.Sections.Select(Section)]),
            ["sensor"] = Sensor(run),
            ["totals"] = Totals(run.Totals),
            ["beats"] = new JsonArray([.. beats.Select(Beat)]),
        };
    }

    private static JsonObject Section(PipeParameters pipe) => new()
    {
        ["length_m"] = Round(pipe.LengthM, 4),
        ["bore_mm"] = Round(1000 * pipe.BoreM, 3),
        ["wave_speed_m_per_s"] = Round(pipe.WaveSpeedMPerS, 3),
        ["gas_share"] = Round(pipe.GasShare, 8),
        ["creep_share"] = Round(pipe.Creep.Sum(e => e.Share), 5),
    };

    private static JsonObject Sensor(RamSimulation run) => new()
    {
        ["offset_kpa"] = Round(run.Sensor.OffsetPa / Kilo, 4),
        ["noise_kpa"] = Round(run.Sensor.NoisePa / Kilo, 4),
        ["natural_frequency_hz"] = run.Sensor.NaturalFrequencyHz,
        ["damping_ratio"] = run.Sensor.DampingRatio,
        ["jitter_s"] = run.Sensor.JitterS,
        ["rate_hz"] = run.Sensor.RateHz,
    };

    private static JsonObject Totals(RamTotals totals) => new()
    {
        ["beats"] = totals.Beats,
        ["duration_s"] = Round(totals.DurationS, 6),
        ["rate_per_min"] = Round(totals.BeatsPerMin, 5),
        ["delivered_l_per_min"] = Round(PerMin(totals.DeliveredM3, totals), 5),
        ["arrived_l_per_min"] = Round(PerMin(totals.ArrivedM3, totals), 5),
        ["waste_l_per_min"] = Round(PerMin(totals.WasteM3, totals), 5),
        ["drawn_l_per_min"] = Round(PerMin(totals.DrawnM3, totals), 5),
        ["daubuisson"] = Round(totals.DAubuisson, 6),
        ["rankine"] = Round(totals.Rankine, 6),
        ["drive_side"] = Round(totals.DriveSide, 6),
    };

    private static JsonObject Beat(VirtualBeat beat) => new()
    {
        ["closure_s"] = Round(beat.ClosureS, 6),
        ["interval_s"] = Round(beat.IntervalS, 6),
        ["peak_kpa"] = Round(beat.PeakPa / Kilo, 3),
        ["suction_kpa"] = Round(beat.SuctionPa / Kilo, 3),
        ["plateau_kpa"] = Round(beat.PlateauPa / Kilo, 3),
        ["closing_velocity_m_per_s"] = Round(beat.ClosingVelocityMPerS, 5),
        ["delivered_l"] = Round(beat.DeliveredM3 * LitresPerM3, 6),
        ["waste_l"] = Round(beat.WasteM3 * LitresPerM3, 6),
        ["drawn_l"] = Round(beat.DrawnM3 * LitresPerM3, 6),
    };

    private static double? PerMin(double volumeM3, RamTotals totals) =>
        totals.Beats > 0 ? volumeM3 / totals.DurationS * LitresPerMin : null;

    private static JsonValue? Round(double? value, int decimals) =>
        value is { } v && double.IsFinite(v) ? JsonValue.Create(Math.Round(v, decimals)) : null;
}
