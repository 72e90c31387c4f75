using System.Text.Json;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Signal.States;
using Clackbeat.Site.Facts;

namespace Clackbeat.Report.Tests;

/// <summary>The keys, units and names are the contract for schema clackbeat.analysis/2, written out here by hand.</summary>
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
        "pipe.verdict", "pipe.rule", "pipe.fatigue_life_years", "findings", "limits",
    ];

    [Fact]
    public void Every_key_of_the_contract_is_there_even_when_nothing_is_known()
    {
        JsonElement full = Parse(MadeUpRam.Analysis());
        JsonElement bare = Parse(Silent());
        Assert.All(AllKeys, key => Assert.NotEqual(JsonValueKind.Undefined, At(full, key).ValueKind));
        Assert.All(AllKeys, key => Assert.NotEqual(JsonValueKind.Undefined, At(bare, key).ValueKind));
        Assert.Equal("clackbeat.analysis/2", At(full, "schema").GetString());
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
            Diagnosis = [new Finding("waste-valve-sticking", 0.82, [MadeUpRam.Told("7 of 41 beats are \"long\".")], MadeUpRam.Told("Clean the guide."))],
        }), "diagnosis")[0];
        Assert.Equal("waste-valve-sticking", finding.GetProperty("condition").GetString());
        Assert.Equal(0.82, finding.GetProperty("probability").GetDouble());
        Assert.Equal("7 of 41 beats are \"long\".", finding.GetProperty("evidence")[0].GetString());
        Assert.Equal("Clean the guide.", finding.GetProperty("advice").GetString());
    }

    [Fact]
    public void What_was_found_and_what_is_weak_are_codes_with_values_and_an_English_text()
    {
        JsonElement json = Parse(MadeUpRam.Analysis() with
        {
            Findings = [Fact.Of("supply-head-found", ("head_m", 1.514), ("head_u_m", 0.12), ("site_head_m", 2.5))],
            Limits =
            [
                Fact.Of("diagnosis-undecided", FactValue.Of("likelihoods", [("healthy", 0.55), ("supply-starved", 0.31)])),
            ],
        });
        JsonElement found = At(json, "findings")[0];
        Assert.Equal("supply-head-found", found.GetProperty("code").GetString());
        Assert.Equal(1.514, found.GetProperty("values").GetProperty("head_m").GetDouble());
        Assert.StartsWith("The record fits a supply level 1.51 m (± 0.12 m) above the waste valve, not the site file's 2.50 m;", found.GetProperty("text").GetString(), StringComparison.Ordinal);
        JsonElement weak = At(json, "limits")[0];
        Assert.Equal(0.31, weak.GetProperty("values").GetProperty("likelihoods").GetProperty("supply-starved").GetDouble());
        Assert.Contains("(55 in 100); ", weak.GetProperty("text").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void An_upper_bound_is_called_one_and_a_plain_figure_is_not()
    {
        JsonElement json = Parse(MadeUpRam.Analysis() with
        {
            Flow = new FlowSummary { DeliveredM3PerS = new Figure(1e-4, 1e-5).AtMost(), WasteM3PerS = new Figure(4e-4, 1e-5) },
        });
        Assert.Equal("upper", At(json, "flow.delivered_l_per_min.bound").GetString());
        Assert.False(At(json, "flow.waste_l_per_min").TryGetProperty("bound", out _));
    }

    [Fact]
    public void A_ram_that_stands_still_has_no_flow_and_its_last_beats_stand_apart()
    {
        JsonElement json = Parse(MadeUpRam.Analysis() with
        {
            State = RamState.StoppedShut,
            Flow = new FlowSummary(),
            Efficiency = new EfficiencySummary(),
            WhileBeating = new LastBeats(
                0.4, 8.25, new FlowSummary { DeliveredM3PerS = new Figure(1e-4, 1e-5) }, new EfficiencySummary { DAubuisson = new Figure(0.6, 0.02) }),
        });
        Assert.Equal(JsonValueKind.Null, At(json, "flow").ValueKind);
        Assert.Equal(JsonValueKind.Null, At(json, "efficiency").ValueKind);
        Assert.Equal(8.25, At(json, "while_beating.until_s").GetDouble());
        Assert.Equal(6, At(json, "while_beating.flow.delivered_l_per_min.value").GetDouble());
        Assert.Equal(0.6, At(json, "while_beating.efficiency.daubuisson.value").GetDouble());
        Assert.Equal(JsonValueKind.Null, At(Parse(MadeUpRam.Analysis()), "while_beating").ValueKind);
    }

    private static RamAnalysis Silent() => MadeUpRam.Bare([], [], []) with { State = RamState.NoSignal };

    private static JsonElement Parse(RamAnalysis analysis)
    {
        using var document = JsonDocument.Parse(AnalysisJson.ToText(analysis));
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
