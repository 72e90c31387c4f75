using System.Diagnostics;
using System.Text.Json.Nodes;

namespace Clackbeat.Acceptance;

public sealed class PlanCommandTests : IDisposable
{
    private static readonly string[] Usual = ["plan", "--supply-head", "3 m", "--supply-flow", "60 L/min", "--lift", "25 m"];

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_json_names_what_the_contract_names()
    {
        JsonNode plan = Json("--ram-kind", "cast");
        JsonNode best = plan["choices"]![0]!;
        Assert.Equal(1, (int)best["count"]!);
        Assert.Equal("galvanised steel", (string)best["drive_pipe"]!["material"]!);
        Assert.True((double)best["drive_pipe"]!["length_m"]! > 0 && (double)best["drive_pipe"]!["bore_mm"]! > 0);
        (double value, double u) = ((double)best["delivered_l_per_min"]!["value"]!, (double)best["delivered_l_per_min"]!["u"]!);
        Assert.InRange((value + u) / (value - u), 1, 1.6001);
        Assert.Equal(4, plan["alternatives"]!.AsArray().Count);
    }

    [Fact]
    public void A_ram_of_unknown_make_has_a_wider_band_and_is_told_so()
    {
        JsonNode plan = Json();
        JsonNode best = plan["choices"]![0]!["delivered_l_per_min"]!;
        Assert.True(((double)best["value"]! + (double)best["u"]!) / ((double)best["value"]! - (double)best["u"]!) > 1.6);
        Assert.Contains(plan["remarks"]!.AsArray(), r => (string)r!["code"]! == "plan-kind-unknown");
    }

    [Fact]
    public void The_site_file_of_a_plan_goes_through_site_check_and_simulate()
    {
        Assert.Equal(0, Outcome.Of([.. Usual, "--site-out", _folder["ram.toml"]]).ExitCode);
        Assert.Equal(0, Outcome.Of("site", "check", _folder["ram.toml"]).ExitCode);
        Assert.Equal(0, Outcome.Of("simulate", "--site", _folder["ram.toml"], "--for", "5s", "--out", _folder["trace.csv"]).ExitCode);
    }

    [Fact]
    public void The_page_says_first_what_to_buy_and_holds_the_cautions()
    {
        Assert.Equal(0, Outcome.Of([.. Usual, "--need", "3000 L/day", "--price", "drive-pipe=12", "--out", _folder["plan.html"]]).ExitCode);
        Assert.Equal(0, Outcome.Of([.. Usual, "--out", _folder["plan.pdf"]]).ExitCode);
        string? page = File.ReadAllText(_folder["plan.html"]);
        Assert.Contains("Buy 1 ram for a drive pipe of 2", page, StringComparison.Ordinal);
        Assert.Contains("Water rights", page, StringComparison.Ordinal);
        Assert.Contains("licensed engineer", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http://", page.Replace("http://www.w3.org", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    // 10 ft of fall, 12 gal/min and 85 ft of lift are 3.05 m, 45.4 L/min and 25.9 m. Nothing metric is left for a reader of US units but the
    // sizes of pipe, which are inches. By hand: a US gallon is 3.785 L, so 800 gal a day are 3028 L.
    [Fact]
    public void A_reader_of_US_units_gets_gallons_feet_psi_and_inch_pipe()
    {
        var told = Outcome.Of("plan", "--supply-head", "10 ft", "--supply-flow", "12 gpm", "--lift", "85 ft", "--need", "800 gal/day", "--us", "--price", "main=1", "--json");
        Assert.Contains("\"PE4710\"", told.Out, StringComparison.Ordinal);
        string screen = Outcome.Of("plan", "--supply-head", "10 ft", "--supply-flow", "12 gpm", "--lift", "85 ft", "--need", "800 gal/day", "--us", "--price", "main=1").Out;
        Assert.Contains("800 gal a day are needed", screen.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains("1.00 / ft", screen, StringComparison.Ordinal);
        Assert.Contains("PE4710 DR", screen.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains(" psi", screen, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\d (L|m|mm|bar|m³|L/min)\b", screen);
    }

    [Theory]
    [InlineData("es", "Compre 1 ariete para una tubería motriz de 2 in.", "Derechos de agua")]
    [InlineData("fr", "Achetez 1 bélier pour une conduite motrice de 2 in.", "Droits d'eau")]
    [InlineData("pt", "Compre 1 carneiro para um tubo de alimentação de 2 in.", "Direitos de água")]
    public void A_plan_is_told_in_the_language_that_was_asked_for(string language, string headline, string caution)
    {
        string screen = Outcome.Of([.. Usual, "--language", language]).Out;
        Assert.StartsWith(headline, screen.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains(caution, screen, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\b(drive pipe|the|water|and|with)\b", screen.Replace("Working Paper", "", StringComparison.Ordinal));
        Assert.Equal(Outcome.Of([.. Usual, "--json"]).Out, Outcome.Of([.. Usual, "--json", "--language", language]).Out);
    }

    [Theory]
    [InlineData("0 m", "60 L/min", "25 m", "falls")]
    [InlineData("3 m", "60 L/min", "2 m", "No pump is needed")]
    [InlineData("3 m", "0.5 L/min", "25 m", "too little")]
    public void What_no_ram_can_do_is_refused_with_its_reason(string head, string flow, string lift, string reason)
    {
        var refused = Outcome.Of("plan", "--supply-head", head, "--supply-flow", flow, "--lift", lift, "--json");
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains(reason, refused.Error, StringComparison.Ordinal);
        Assert.Empty(JsonNode.Parse(refused.Out)!["choices"]!.AsArray());
    }

    [Theory]
    [InlineData("--ram-kind", "cats")]
    [InlineData("--use", "elephant=3")]
    [InlineData("--supply-months", "1, 2, 3 L/min")]
    [InlineData("--drive-material", "bamboo")]
    [InlineData("--shortfall", "200 %")]
    public void A_slip_is_answered_with_what_to_write(string option, string value)
    {
        var slip = Outcome.Of([.. Usual, option, value]);
        Assert.Equal(2, slip.ExitCode);
        Assert.StartsWith(option, slip.Error, StringComparison.Ordinal);
    }

    // Two seconds are promised to a waiting person; a machine that does other work at the time gets ten.
    [Fact]
    public void A_plan_is_there_before_anyone_wonders()
    {
        Json();
        var clock = Stopwatch.StartNew();
        Json();
        Assert.InRange(clock.Elapsed.TotalSeconds, 0, 10);
    }

    private static JsonNode Json(params string[] more)
    {
        var planned = Outcome.Of([.. Usual, .. more, "--json"]);
        Assert.Equal(0, planned.ExitCode);
        return JsonNode.Parse(planned.Out)!;
    }
}
