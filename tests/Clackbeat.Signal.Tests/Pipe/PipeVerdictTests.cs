using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Signal.Tests.Pipe;

/// <summary>The verdict on the pipe from whole records of virtual rams, whose true peaks and velocities are known.</summary>
public class PipeVerdictTests
{
    private static readonly RamSite Steel = Rated(Rams.Steel, 50e5);

    [Fact]
    public void A_pvc_pipe_well_inside_its_rating_is_within_by_pressure_and_open_by_fatigue()
    {
        (double[] timesS, double[] pressuresPa, List<VirtualRam.Truth.VirtualBeat> truth) = Rams.Record(Rams.Pvc, 30);
        PipeCheck pipe = Rams.Analyse(Rams.Pvc, timesS, pressuresPa).Pipe;
        Assert.True(truth.Max(b => b.PeakPa) < pipe.AllowablePa / 3, "the virtual ram's true peaks lie far inside the rating");
        Assert.Equal(PipeVerdict.Within, pipe.PressureVerdict);
        Assert.Equal(PipeVerdict.Within, pipe.Verdict);
        Assert.Equal(PipeVerdict.Near, pipe.FatigueVerdict);
        Assert.Equal(FatigueRule.PvcCurves, pipe.Fatigue!.Rule);
        Assert.True(pipe.FatigueLifeYears!.Low < pipe.DesignLifeYears && pipe.FatigueLifeYears.High > pipe.DesignLifeYears);
        Assert.True(pipe.FatigueLifeYears.Low < pipe.FatigueLifeYears.Value && pipe.FatigueLifeYears.Value < pipe.FatigueLifeYears.High);
        Assert.True(pipe.Fatigue!.BeyondTested);
    }

    [Fact]
    public void A_steel_pipe_at_a_tenth_of_its_rating_isn_t_alarmed_about()
    {
        (double[] timesS, double[] pressuresPa, List<VirtualRam.Truth.VirtualBeat> _) = Rams.Record(Steel, 30);
        PipeCheck pipe = Rams.Analyse(Steel, timesS, pressuresPa).Pipe;
        Assert.True(pipe.PeakPa < 0.15 * pipe.RatedPa);
        Assert.Equal(PipeVerdict.Within, pipe.Verdict);
        Assert.Equal(FatigueCheck.LongestLifeYears, pipe.FatigueLifeYears!.Low);
        Assert.Contains(pipe.Remarks, r => r.Code == RatingRemarkCode.PeakWithin);
    }

    // The virtual converter reads an eighth past the sensor's range and no further; 2.4 bar are under this ram's peaks.
    [Fact]
    public void A_clipped_sensor_never_says_within()
    {
        RamSite small = Steel with { Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 2.4e5 } };
        (double[] timesS, double[] pressuresPa, List<VirtualRam.Truth.VirtualBeat> _) = Rams.Record(small, 20);
        RamAnalysis found = Rams.Analyse(small, timesS, pressuresPa);
        Assert.True(found.Input.ClippedSamples > 0);
        Assert.Equal(PipeVerdict.Unknown, found.Pipe.Verdict);
    }

    // Six samples a pipe period of 2 · 15 m/1340 m/s are 270 a second.
    [Theory]
    [InlineData(100, null)]
    [InlineData(1000, 0.02)]
    public void A_slow_recorder_or_a_slow_sensor_never_says_within(double rateHz, double? responseS)
    {
        RamSite slow = Steel with { Sensor = Steel.Sensor with { ResponseTimeS = responseS } };
        (double[] timesS, double[] pressuresPa, List<VirtualRam.Truth.VirtualBeat> _) = Rams.Record(slow, 20, rateHz);
        Assert.NotEqual(PipeVerdict.Within, Rams.Analyse(slow, timesS, pressuresPa).Pipe.Verdict);
    }

    [Fact]
    public void A_suction_the_sensor_can_t_tell_from_a_vacuum_is_not_called_whole()
    {
        (double[] timesS, double[] pressuresPa, List<VirtualRam.Truth.VirtualBeat> truth) = Rams.Record(Steel, 20);
        double[] shifted = [.. pressuresPa.Select(p => Math.Max(p, -99e3))];
        int deepest = Array.IndexOf(shifted, shifted.Min());
        shifted[deepest] = -99e3;
        Assert.True(truth.Count > 5);
        // −99 kPa is 1 kPa above boiling at 12 °C; half a percent of a 10 bar range is 5 kPa.
        Assert.Equal(CavityState.Likely, Rams.Analyse(Steel, timesS, shifted).Pipe.Suction!.Cavity);
    }

    // A record of the same ram at ten times the noise: counted sample by sample, the noise gives many times the swings.
    [Theory]
    [InlineData(1)]
    [InlineData(10)]
    public void Noise_is_left_out_of_the_count_and_takes_nothing_from_the_damage(double noise)
    {
        (double[] timesS, double[] pressuresPa, List<VirtualRam.Truth.VirtualBeat> truth) = Rams.Record(Rams.Pvc, 30, noise: noise);
        LoadHistory load = Rams.Analyse(Rams.Pvc, timesS, pressuresPa).Load!;
        double sigmaPa = RamDesigner.SensorFor(Rams.Pvc.Sensor).NoisePa * noise;
        Assert.InRange(load.NoisePa, 0.7 * sigmaPa, 1.5 * sigmaPa);

        var all = new List<RainflowCycle>();
        var counter = new RainflowCounter(all.Add);
        counter.Add(pressuresPa);
        counter.Finish();
        double Damage(IEnumerable<RainflowCycle> cycles) => Miner.Damage(cycles, c => PvcCurves.Bowman(PvcCurves.HoopStressPa(c.Range, 13)));
        Assert.Equal(1, Damage(load.Cycles.Cycles()) / Damage(all), 0.01);
        Assert.True(all.Sum(c => c.Count) > 5 * load.Cycles.TotalCount, "most of what a naive count finds is noise");
        Assert.InRange(load.Cycles.TotalCount, truth.Count, 60 * truth.Count);
    }

    [Theory]
    [InlineData(RamCharacter.Smooth)]
    [InlineData(RamCharacter.Lively)]
    public void The_ceiling_with_its_margin_holds_static_and_joukowsky_of_the_true_velocity(RamCharacter character)
    {
        foreach (RamSite site in new[] { Rams.Steel, Rams.Pvc })
        {
            (double[] timesS, double[] pressuresPa, List<VirtualRam.Truth.VirtualBeat> truth) = Rams.Record(site, 30, character: character);
            RamAnalysis found = Rams.Analyse(site, timesS, pressuresPa);
            SiteHydraulicsOf(site, out double density, out double waveSpeed);
            double truePa = density * ((Constants.GravityMPerS2 * site.Supply.HeadM) + (waveSpeed * truth.Average(b => b.ClosingVelocityMPerS)));
            Figure ceiling = found.Pressure.PeakCeiling!.Value;
            Assert.InRange(truePa, ceiling.Value - ceiling.U, ceiling.Value + ceiling.U);
            Assert.True(truth.Max(b => b.PeakPa) < truePa, "no true peak passes static + aV/g");
        }
    }

    private static void SiteHydraulicsOf(RamSite site, out double density, out double waveSpeed)
    {
        var hydraulics = Clackbeat.Site.Physics.SiteHydraulics.Of(site);
        (density, waveSpeed) = (hydraulics.Water.DensityKgPerM3, hydraulics.WaveSpeedMPerS);
    }

    private static RamSite Rated(RamSite site, double ratedPa) =>
        site with { DrivePipe = site.DrivePipe with { PressureRatingPa = ratedPa, Threaded = true } };
}
