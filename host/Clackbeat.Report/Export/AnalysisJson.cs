using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Facts;
using Clackbeat.Words;

namespace Clackbeat.Report.Export;

/// <summary>
/// Writes one analysis as JSON, schema <c>clackbeat.analysis/2</c> (docs/analysis-json.md). Pressures in kPa gauge, flows in L/min, times in s;
/// a figure with uncertainty is <c>{"value", "u"}</c> with u expanded (k = 2); what can't be given is null.
/// Keys are always present, and no number is ever NaN or infinite.
/// </summary>
public static class AnalysisJson
{
    private const double KiloPascal = 1e-3;
    private const double LitrePerMinute = 60_000;

    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        // Leaves ° ± · and the keeper's own script readable, and still escapes what HTML would act on.
        Encoder = JavaScriptEncoder.Create(UnicodeRanges.All),
    };

    /// <summary>Writes the analysis to a stream, which stays open.</summary>
    public static void Write(Stream output, RamAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(analysis);
        using IDisposable english = Catalogue.Use(Catalogue.English);
        using var json = new Utf8JsonWriter(output, Options);
        json.WriteStartObject();
        json.WriteString("schema", ContractNames.AnalysisSchema);
        json.WriteStartObject("uncertainty");
        json.WriteNumber("coverage", 0.95);
        json.WriteNumber("k", 2);
        json.WriteEndObject();
        WriteInput(json, analysis.Input);
        json.WriteString("state", ContractNames.Of(analysis.State));
        WriteBeats(json, analysis.Beats);
        WritePressure(json, analysis.Pressure);
        WriteWater(json, analysis);
        WriteDrivePipe(json, analysis.DrivePipe);
        Measured(json, "supply_head_found_m", analysis.FoundSupplyHeadM);
        WriteEnergy(json, analysis.Energy);
        WriteDiagnosis(json, analysis.Diagnosis);
        WritePipe(json, analysis.Pipe);
        WriteFacts(json, "findings", analysis.Findings);
        WriteFacts(json, "limits", analysis.Limits);
        json.WriteEndObject();
    }

    /// <summary>The analysis as JSON text.</summary>
    public static string ToText(RamAnalysis analysis)
    {
        using var buffer = new MemoryStream();
        Write(buffer, analysis);
        return System.Text.Encoding.UTF8.GetString(buffer.ToArray());
    }

    private static void WriteInput(Utf8JsonWriter json, InputSummary input)
    {
        json.WriteStartObject("input");
        json.WriteString("file", input.File);
        Time(json, "duration_s", input.DurationS);
        Number(json, "sample_rate_hz", input.SampleRateHz);
        json.WriteNumber("samples", input.Samples);
        json.WriteStartArray("gaps");
        foreach (Gap gap in input.Gaps)
        {
            json.WriteStartObject();
            Time(json, "start_s", gap.StartS);
            Time(json, "length_s", gap.LengthS);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("completeness", Catalogue.English.Completeness(input.AllLosses));
        WriteFacts(json, "losses", input.Losses);
        if (input.Board is { } board)
        {
            json.WriteStartObject("board");
            Number(json, "instant_bound_s", board.InstantBoundS);
            Number(json, "conversion_s", board.ConversionS);
            Number(json, "jitter_s", board.JitterS);
            json.WriteEndObject();
        }

        json.WriteNumber("clipped_samples", input.ClippedSamples);
        json.WriteNumber("repeated_timestamps", input.RepeatedTimestamps);
        json.WriteNumber("unordered_timestamps", input.UnorderedTimestamps);
        json.WriteNumber("skipped_rows", input.SkippedRows);
        json.WriteBoolean("partly_unusable", input.PartlyUnusable);
        json.WriteEndObject();
    }

    private static void WriteBeats(Utf8JsonWriter json, BeatSummary beats)
    {
        json.WriteStartObject("beats");
        json.WriteNumber("count", beats.Count);
        Measured(json, "rate_per_min", beats.RatePerMin);
        json.WriteStartObject("interval_s");
        Time(json, "median", beats.IntervalMedianS);
        Time(json, "p05", beats.IntervalP05S);
        Time(json, "p95", beats.IntervalP95S);
        json.WriteEndObject();
        Number(json, "irregularity", beats.Irregularity);
        Measured(json, "whole_record_rate_per_min", beats.WholeRatePerMin);
        json.WriteEndObject();
        if (beats.Steady is not { } steady)
        {
            json.WriteNull("steady");
            return;
        }

        json.WriteStartObject("steady");
        Time(json, "from_s", steady.FromS);
        Time(json, "until_s", steady.UntilS);
        json.WriteNumber("beats", steady.Beats);
        json.WriteEndObject();
    }

    private static void WritePressure(Utf8JsonWriter json, PressureSummary pressure)
    {
        json.WriteStartObject("pressure");
        Measured(json, "delivery_kpa", pressure.Delivery, KiloPascal);
        json.WriteStartObject("peak_kpa");
        Number(json, "median", pressure.PeakMedianPa, KiloPascal);
        Number(json, "p95", pressure.PeakP95Pa, KiloPascal);
        Number(json, "max", pressure.PeakMaxPa, KiloPascal);
        json.WriteEndObject();
        Measured(json, "peak_estimated_kpa", pressure.PeakTrue, KiloPascal);
        // The name it had before; a documented alias.
        Measured(json, "peak_true_kpa", pressure.PeakTrue, KiloPascal);
        Measured(json, "peak_ceiling_kpa", pressure.PeakCeiling, KiloPascal);
        Number(json, "suction_min_kpa", pressure.SuctionMinPa, KiloPascal);
        Number(json, "mean_kpa", pressure.MeanPa, KiloPascal);
        Number(json, "static_kpa", pressure.StaticPa, KiloPascal);
        json.WriteBoolean("static_is_measured", pressure.StaticIsMeasured);
        json.WriteEndObject();
    }

    // A ram that stands still has no flow and no efficiency: not zero of what was measured, but none.
    private static void WriteWater(Utf8JsonWriter json, RamAnalysis analysis)
    {
        if (!analysis.IsStopped)
        {
            WriteFlow(json, analysis.Flow);
            WriteEfficiency(json, analysis.Efficiency);
            json.WriteNull("while_beating");
            return;
        }

        json.WriteNull("flow");
        json.WriteNull("efficiency");
        if (analysis.WhileBeating is not { } before)
        {
            json.WriteNull("while_beating");
            return;
        }

        json.WriteStartObject("while_beating");
        Time(json, "from_s", before.FromS);
        Time(json, "until_s", before.UntilS);
        WriteFlow(json, before.Flow);
        WriteEfficiency(json, before.Efficiency);
        json.WriteEndObject();
    }

    private static void WriteFlow(Utf8JsonWriter json, FlowSummary flow)
    {
        json.WriteStartObject("flow");
        Measured(json, "delivered_l_per_min", flow.DeliveredM3PerS, LitrePerMinute);
        Measured(json, "waste_l_per_min", flow.WasteM3PerS, LitrePerMinute);
        Measured(json, "drawn_l_per_min", flow.DrawnM3PerS, LitrePerMinute);
        Measured(json, "closing_velocity_m_per_s", flow.ClosingVelocityMPerS);
        json.WriteEndObject();
    }

    private static void WriteEfficiency(Utf8JsonWriter json, EfficiencySummary efficiency)
    {
        json.WriteStartObject("efficiency");
        Measured(json, "daubuisson", efficiency.DAubuisson);
        Measured(json, "rankine", efficiency.Rankine);
        Measured(json, "drive_side", efficiency.DriveSide);
        json.WriteEndObject();
    }

    private static void WriteDrivePipe(Utf8JsonWriter json, DrivePipeSummary pipe)
    {
        json.WriteStartObject("drive_pipe");
        Measured(json, "wave_speed_m_per_s", pipe.WaveSpeedMPerS);
        Time(json, "pipe_period_s", pipe.PipePeriodS);
        Number(json, "sensor_bias_kpa", pipe.SensorBiasPa, KiloPascal);
        json.WriteEndObject();
    }

    private static void WriteEnergy(Utf8JsonWriter json, EnergySplit? energy)
    {
        if (energy is null)
        {
            json.WriteNull("energy_of_a_beat_j");
            return;
        }

        json.WriteStartObject("energy_of_a_beat_j");
        Number(json, "drawn", energy.DrawnJ);
        Number(json, "delivered", energy.DeliveredJ);
        Number(json, "delivery_side", energy.DeliveryLossJ);
        Number(json, "waste_valve", energy.WasteValveJ);
        Number(json, "drive_pipe", energy.FrictionJ);
        Number(json, "rest", energy.RestJ);
        json.WriteEndObject();
    }

    private static void WriteDiagnosis(Utf8JsonWriter json, IReadOnlyList<Finding> findings)
    {
        json.WriteStartArray("diagnosis");
        foreach (Finding finding in findings)
        {
            json.WriteStartObject();
            json.WriteString("condition", finding.Condition);
            Number(json, "probability", finding.Probability);
            WriteTexts(json, "evidence", Catalogue.English.Say(finding.Evidence));
            WriteFacts(json, "evidence_facts", finding.Evidence);
            json.WriteString("advice", Catalogue.English.Say(finding.Advice));
            json.WriteString("advice_code", finding.Advice.Code);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WritePipe(Utf8JsonWriter json, PipeCheck pipe)
    {
        json.WriteStartObject("pipe");
        Number(json, "rated_kpa", pipe.RatedPa, KiloPascal);
        Number(json, "allowable_kpa", pipe.AllowablePa, KiloPascal);
        Number(json, "peak_kpa", pipe.PeakPa, KiloPascal);
        json.WriteString("verdict", ContractNames.Of(pipe.Verdict));
        json.WriteString("rule", PipeWords.Rule(pipe));
        json.WriteString("fatigue_verdict", ContractNames.Of(pipe.FatigueVerdict));
        if (pipe.FatigueLifeYears is { } life && double.IsFinite(life.Value))
        {
            json.WriteStartObject("fatigue_life_years");
            Number(json, "value", life.Value);
            Number(json, "low", life.Low);
            Number(json, "high", life.High);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("fatigue_life_years");
        }

        json.WriteEndObject();
    }

    private static void WriteTexts(Utf8JsonWriter json, string name, IReadOnlyList<string> texts)
    {
        json.WriteStartArray(name);
        foreach (string text in texts)
        {
            json.WriteStringValue(text);
        }

        json.WriteEndArray();
    }

    private static void WriteFacts(Utf8JsonWriter json, string name, IReadOnlyList<Fact> facts)
    {
        json.WriteStartArray(name);
        foreach (Fact fact in facts)
        {
            json.WriteStartObject();
            json.WriteString("code", fact.Code);
            json.WriteStartObject("values");
            foreach (FactValue value in fact.Values)
            {
                WriteValue(json, value);
            }

            json.WriteEndObject();
            json.WriteString("text", Catalogue.English.Say(fact));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteValue(Utf8JsonWriter json, FactValue value)
    {
        if (value.Likelihoods is { } likelihoods)
        {
            json.WriteStartObject(value.Name);
            foreach ((string condition, double probability) in likelihoods)
            {
                Number(json, condition, probability);
            }

            json.WriteEndObject();
        }
        else if (value.Word is { } word)
        {
            json.WriteString(value.Name, word);
        }
        else
        {
            Number(json, value.Name, value.Number);
        }
    }

    private static void Measured(Utf8JsonWriter json, string name, Figure? figure, double factor = 1)
    {
        // A value whose uncertainty is unknown is a guess, and is withheld like one that was never found.
        if (figure is not { } f || !double.IsFinite(f.Value) || !double.IsFinite(f.U))
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        WriteNumber(json, "value", Rounding.Value(f.Value * factor));
        WriteNumber(json, "u", Rounding.Uncertainty(f.U * factor));
        if (Math.Abs(f.K - 2) > 0.05)
        {
            WriteNumber(json, "k", Rounding.Value(f.K));
        }

        if (f.IsUpperBound)
        {
            json.WriteString("bound", "upper");
        }

        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value, double factor = 1) =>
        WriteNumber(json, name, Rounding.Value(value * factor));

    private static void Time(Utf8JsonWriter json, string name, double? seconds) =>
        WriteNumber(json, name, Rounding.Seconds(seconds));

    private static void WriteNumber(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } v)
        {
            json.WriteNumber(name, v);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
