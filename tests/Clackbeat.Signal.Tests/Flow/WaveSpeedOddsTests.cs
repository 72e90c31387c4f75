using Clackbeat.Signal.Flow;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>
/// What is believed of a wave speed before the record is looked at, as numbers: too ready a belief in air sends a keeper to bleed a
/// pipe that is full, too slow a one hides the air.
/// </summary>
public class WaveSpeedOddsTests
{
    private const double Uncertainty = 0.05;

    [Fact]
    public void One_ram_in_ten_is_taken_to_have_air_in_its_pipe_at_any_speed_down_to_a_tenth()
    {
        // Nine in ten stand about the site's figure by the normal law; one in ten lies anywhere in the logarithm from there to a tenth.
        double full = Math.Log(0.9 / (Uncertainty * Math.Sqrt(2 * Math.PI)));
        double air = Math.Log(0.1 / Math.Log(10));

        Assert.Equal(full, Score(1), 1e-9);
        Assert.Equal(air, Score(0.7), 1e-9);
        Assert.Equal(air, Score(0.3), 1e-9);
    }

    [Fact]
    public void Air_is_thought_of_only_well_below_the_sites_figure_and_where_the_record_is_explained_as_well()
    {
        // Above 0.88 of the site's figure a wrong length or a soft wall explains as much. A site file known to 2 % leaves the air alone there.
        Assert.InRange(Score(0.87, uncertainty: 0.02), -3.2, -3.1);
        Assert.True(Score(0.89, uncertainty: 0.02) < -10);
        Assert.True(Score(0.7, misfit: 0.031) < -20);
        Assert.True(Score(0.7, misfit: 0.029) > -6);
    }

    [Fact]
    public void Two_per_cent_more_misfit_make_a_wave_speed_less_likely_by_e() =>
        Assert.Equal(1, Score(1) - Score(1, misfit: 0.02), 1e-9);

    private static double Score(double shareOfSite, double misfit = 0, double uncertainty = Uncertainty) =>
        WaveSpeedFinder.Score(Math.Log(shareOfSite), uncertainty, misfit, 0);
}
