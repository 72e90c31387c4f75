using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Tests.Diagnosis;

public sealed class SiteEvidenceTests
{
    private static readonly Dictionary<Feature, double> Found = new() { [Feature.Echo] = -0.3, [Feature.WaveSpeed] = -0.3, [Feature.EchoAway] = 9, [Feature.Plateau] = 0 };

    [Fact]
    public void A_slow_wave_is_no_evidence_for_air_in_a_wall_that_creeps()
    {
        Assert.Equal([Feature.Plateau], Left(Rams.Polyethylene));
        Assert.Equal([Feature.Plateau], Left(Rams.Pvc));
    }

    [Fact]
    public void In_one_pipe_of_steel_it_is() => Assert.Equal(Found.Count, Left(Rams.Steel).Count);

    [Fact]
    public void Joints_between_sections_echo_in_a_well_ram()
    {
        PipeSection one = Rams.Steel.DrivePipe.Sections[0];
        Assert.Equal([Feature.Plateau], Left(Rams.Steel with { DrivePipe = new DrivePipe([one, one with { BoreM = 0.7 * one.BoreM }]) }));
    }

    [Theory]
    [InlineData(0.02, 0.9)]
    [InlineData(0.25, 0.3)]
    [InlineData(0.6, 0.3)]
    public void The_more_features_are_unknown_the_nearer_a_probability_comes_to_what_is_known_without_a_record(double novelty, double expected) =>
        Assert.Equal(expected, Novelty.Temper(0.9, 0.3, novelty), 9);

    [Fact]
    public void A_record_at_a_tenth_of_the_baselines_rate_says_nothing_and_one_at_half_of_it_all()
    {
        Assert.Equal(0, Novelty.OfRate(new Dictionary<Covariate, double> { [Covariate.Sampling] = Math.Log(0.5) }));
        Assert.Equal(Novelty.Limit, Novelty.OfRate(new Dictionary<Covariate, double> { [Covariate.Sampling] = Math.Log(0.1) }), 9);
    }

    private static IReadOnlyCollection<Feature> Left(RamSite site) =>
        [.. SiteEvidence.Of(Comparison.BySite(Found, new Dictionary<Covariate, double>()), site).Features.Keys];
}
