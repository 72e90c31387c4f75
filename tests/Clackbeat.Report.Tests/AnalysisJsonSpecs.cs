using System.Text.Json;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Report.Tests;

/// <summary>The keys, units and names are the contract for schema clackbeat.analysis/1, written out here by hand.</summary>
public sealed class AnalysisJsonSpecs
{
    private static readonly string[] AllKeys =
    [
        "schema", "input.file", "input.duration_s", "input.sample_rate_hz", "input.samples", "input.gaps",
        "input.completeness", "input.clipped_samples", "state", "beats.count", "beats.rate_per_min",
        "beats.interval_s.median", "beats.interval_s.p05", "beats.interval_s.p95", "beats.irregularity",
        "pressure.delivery_kpa", "pressure.peak_kpa.median", "pressure.peak_kpa.p95", "pressure.peak_kpa.max",
        "pressure.suction_min_kpa", "pressure.mean_kpa", "pressure.static_kpa", "flow.delivered_l_per_min",
        "flow.waste_l_per_min", "flow.drawn_l_per_min", "flow.closing_velocity_m_per_s", "efficiency.daubuisson",
        "efficiency.rankine", "efficiency.drive_side", "drive_pipe.wave_speed_m_per_s", "drive_pipe.pipe_period_s",
        "drive_pipe.sensor_bias_kpa", "diagnosis", "pipe.rated_kpa", "pipe.allowable_kpa", "pipe.peak_kpa",
        "pipe.verdict", "pipe.rule", "pipe.fatigue_life_years", "limits",
    ];

    [Fact]
    public void Every_key_of_the_contract_is_there_even_when_nothing_is_known()
    {
        JsonElement full = Parse(MadeUpRam.Analysis());
        JsonElement bare = Parse(Silent());
        Assert.All(AllKeys, key => Assert.NotEqual(JsonValueKind.Undefined, At(full, key).ValueKind));
        Assert.All(AllKeys, key => Assert.NotEqual(JsonValueKind.Undefined, At(bare, key).ValueKind));
        Assert.Equal("clackbeat.analysis/1", At(full, "schema").GetString());
    }

    [Fact]
    public void Withheld_figures_are_null()
    {
        JsonElement json = Parse(Silent());
        Assert.All(
            ["beats.rate_per_min", "beats.interval_s.median", "pressure.delivery_kpa", "pressure.peak_kpa.max", "flow.delivered_l_per_min", "efficiency.rankine", "drive_pipe.wave_speed_m_per_s", "pipe.fatigue_life_years"],
            (string key) => Assert.Equal(JsonValueKind.Null, At(json, key).ValueKind));
    }

    [Fact]
    public void Pascals_become_kilopascals_and_cubic_metres_a_second_become_litres_a_minute()
    {
        JsonElement json = Parse(MadeUpRam.Analysis() with
        {
            Pressure = new PressureSummary { Delivery = new Figure(207_640, 1_200) },
            Flow = new FlowSummary { DeliveredM3PerS = new Figure(0.0001196, 0.000006) },
        });
        Assert.Equal(207.64, At(json, "pressure.delivery_kpa.value").GetDouble());
        Assert.Equal(1.2, At(json, "pressure.delivery_kpa.u").GetDouble());
        Assert.Equal(7.176, At(json, "flow.delivered_l_per_min.value").GetDouble());
        Assert.Equal(0.36, At(json, "flow.delivered_l_per_min.u").GetDouble());
    }

    [Fact]
    public void No_number_carries_more_than_six_significant_digits_except_instants()
    {
        JsonElement json = Parse(MadeUpRam.Analysis() with
        {
            Pressure = new PressureSummary { MeanPa = 23_141.592653589793 },
            Input = MadeUpRam.Analysis().Input with { Gaps = [new Gap(3_599.1234567, 1.25)] },
        });
        Assert.Equal("23.1416", At(json, "pressure.mean_kpa").GetRawText());
        Assert.Equal("3599.123457", At(json, "input.gaps")[0].GetProperty("start_s").GetRawText());
    }

    [Fact]
    public void Not_a_number_is_never_written()
    {
        RamAnalysis analysis = MadeUpRam.Analysis() with
        {
            Pressure = new PressureSummary { Delivery = new Figure(double.NaN, 1), MeanPa = double.PositiveInfinity, StaticPa = double.NaN },
            Flow = new FlowSummary { DeliveredM3PerS = new Figure(1e-4, double.NaN) },
            Pipe = new PipeCheck { FatigueLifeYears = new FatigueLife(double.PositiveInfinity, 1, 2) },
        };
        JsonElement json = Parse(analysis);
        Assert.Equal(JsonValueKind.Null, At(json, "pressure.delivery_kpa").ValueKind);
        Assert.Equal(JsonValueKind.Null, At(json, "pressure.mean_kpa").ValueKind);
        Assert.Equal(JsonValueKind.Null, At(json, "flow.delivered_l_per_min").ValueKind);
        Assert.Equal(JsonValueKind.Null, At(json, "pipe.fatigue_life_years").ValueKind);
    }

    [Theory]
    [InlineData(RamState.Beating, "beating")]
    [InlineData(RamState.StoppedShut, "stopped-shut")]
    [InlineData(RamState.StoppedOpen, "stopped-open")]
    [InlineData(RamState.NoSignal, "no-signal")]
    public void States_have_their_names(RamState state, string name) =>
        Assert.Equal(name, At(Parse(MadeUpRam.Analysis() with { State = state }), "state").GetString());

    [Theory]
    [InlineData(PipeVerdict.Within, "within")]
    [InlineData(PipeVerdict.Near, "near")]
    [InlineData(PipeVerdict.Over, "over")]
    [InlineData(PipeVerdict.Unknown, "unknown")]
    public void Verdicts_have_their_names(PipeVerdict verdict, string name) =>
        Assert.Equal(name, At(Parse(MadeUpRam.Analysis() with { Pipe = new PipeCheck { Verdict = verdict } }), "pipe.verdict").GetString());

    [Fact]
    public void A_finding_keeps_its_evidence_and_its_words()
    {
        JsonElement finding = At(Parse(MadeUpRam.Analysis() with
        {
            Diagnosis = [new Finding("waste-valve-sticking", 0.82, ["7 of 41 beats are \"long\"."], "Clean the guide.")],
        }), "diagnosis")[0];
        Assert.Equal("waste-valve-sticking", finding.GetProperty("condition").GetString());
        Assert.Equal(0.82, finding.GetProperty("probability").GetDouble());
        Assert.Equal("7 of 41 beats are \"long\".", finding.GetProperty("evidence")[0].GetString());
        Assert.Equal("Clean the guide.", finding.GetProperty("advice").GetString());
    }

    private static RamAnalysis Silent() => MadeUpRam.Bare([], [], []) with { State = RamState.NoSignal };

    private static JsonElement Parse(RamAnalysis analysis)
    {
        using JsonDocument document = JsonDocument.Parse(AnalysisJson.ToText(analysis));
        return document.RootElement.Clone();
    }

    private static JsonElement At(JsonElement element, string path)
    {
        foreach (string key in path.Split('.'))
        {
            if (!element.TryGetProperty(key, out element))
            {
                return default;
            }
        }

        return element;
    }
}
