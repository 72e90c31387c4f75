using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Remedies;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>What would help, against what physics says must come of each change.</summary>
public class RemedyTests
{
    private static readonly RamSite Pvc = new()
    {
        Name = "a ram on PVC",
        Supply = new Supply { HeadM = 3, WaterTemperatureC = 12 },
        DrivePipe = new DrivePipe
        {
            Material = PipeMaterial.PvcU,
            LengthM = 12,
            BoreM = 0.0409,
            WallM = 0.00368,
            PressureClass = "Schedule 40",
            Threaded = false,
        },
        Delivery = new Delivery { HeadM = 18 },
        Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
    };

    private static readonly Lazy<RemedyTable> Table = new(() => RemedyStudy.Of(Pvc, TimeSpan.FromMinutes(2)));

    private static Remedy Of(RemedyCode code) => Table.Value.Changes.Single(c => c.Change.Code == code);

    // Joukowsky: the knock goes with the closing velocity, and a waste valve that shuts earlier wastes less. Whether fatigue
    // gains is another matter: the swings are smaller, but there are more of them.
    [Theory]
    [InlineData(RemedyCode.LighterValve)]
    [InlineData(RemedyCode.ShorterStroke)]
    public void A_valve_that_shuts_earlier_lowers_the_peak_and_the_waste_and_beats_faster(RemedyCode change)
    {
        Remedy before = Table.Value.AsItIs;
        Remedy after = Of(change);
        Assert.True(after.PeakPa.Value < before.PeakPa.Value);
        Assert.True(after.WasteM3PerS.Value < before.WasteM3PerS.Value);
        Assert.True(after.BeatsPerMin.Value > before.BeatsPerMin.Value);
        Assert.True(after.Margin!.Value.Value > before.Margin!.Value.Value);
    }

    // Joukowsky again: the knock goes with the wave speed, which steel raises and polyethylene lowers (Korteweg).
    [Fact]
    public void A_stiffer_pipe_knocks_harder_and_a_softer_one_less()
    {
        Assert.True(Of(RemedyCode.StifferPipe).PeakPa.Value > Table.Value.AsItIs.PeakPa.Value);
        Assert.True(Of(RemedyCode.SofterPipe).PeakPa.Value < Table.Value.AsItIs.PeakPa.Value);
        Assert.Equal(PipeVerdict.Near, Table.Value.AsItIs.FatigueVerdict);
        Assert.Equal(PipeVerdict.Within, Of(RemedyCode.StifferPipe).FatigueVerdict);
        Assert.Equal(PipeVerdict.Within, Of(RemedyCode.StifferPipe).Verdict);
    }

    // ASTM D1785: 1-1/2 in Schedule 80 is rated 470 psi, Schedule 40 330 psi, so the margin grows by about 470/330.
    [Fact]
    public void The_next_stronger_class_of_the_same_size_is_the_one_tried()
    {
        Remedy stronger = Of(RemedyCode.StrongerClass);
        Assert.StartsWith("Schedule 80", stronger.Change.Pipe, StringComparison.Ordinal);
        double gain = stronger.Margin!.Value.Value / Table.Value.AsItIs.Margin!.Value.Value;
        Assert.InRange(gain, 0.85 * 470 / 330, 1.05 * 470 / 330);
    }

    [Fact]
    public void A_vessel_without_its_air_never_helps() =>
        Assert.True(Of(RemedyCode.NoAir).DeliveredM3PerS.Value < Table.Value.AsItIs.DeliveredM3PerS.Value);

    [Fact]
    public void The_same_site_gives_the_same_table()
    {
        RemedyTable again = RemedyStudy.Of(Pvc, TimeSpan.Zero);
        Assert.Equal(Table.Value.AsItIs, again.AsItIs);
        Assert.Empty(again.Changes);
        Assert.NotEmpty(again.NotTried);
        Assert.All(again.NotTried, n => Assert.Equal(RemedyLack.Time, n.Lack));
    }

    [Fact]
    public void A_study_can_be_stopped()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => RemedyStudy.Of(Pvc, TimeSpan.FromMinutes(1), stop: stop.Token));
    }
}
