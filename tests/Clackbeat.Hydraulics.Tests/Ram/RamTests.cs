using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Water;
using CsCheck;

namespace Clackbeat.Hydraulics.Tests.Ram;

public class RamTests
{
    private static readonly Gen<RamGeometry> Rams = Gen.Select(
        Gen.Double[3, 60], Gen.Double[0.015, 0.15], Gen.Double[0.5, 8], Gen.Double[1.5, 25], Gen.Double[250, 1400],
        (length, bore, head, ratio, a) => new RamGeometry
        {
            LengthM = length,
            BoreM = bore,
            SupplyHeadM = head,
            DeliveryHeadM = head * ratio,
            WaveSpeedMPerS = a,
        });

    [Fact]
    public void No_ram_gives_out_more_energy_than_it_takes_in() => Rams.Sample(ram =>
    {
        var expected = ExpectedRam.For(ram, WaterProperties.At(12), 1e-4);
        Assert.InRange(expected.DAubuisson.High, 0, 1);
        Assert.True(expected.DAubuisson.Low <= expected.DAubuisson.High);
        Assert.True(expected.BeatsPerMin.Low > 0 && expected.BeatsPerMin.Low <= expected.BeatsPerMin.High);
    });

    [Fact]
    public void The_rigid_beat_keeps_the_energy_of_the_column() => Gen.Select(Rams, Gen.Double[0.1, 0.95]).Sample((ram, x) =>
    {
        // Delivered energy above the source is the kinetic energy: ρ g (h − H) · volume = ½ ρ A L V².
        var cycle = RamCycle.Rigid(ram, 2, 2 * x);
        double lifted = 9.80665 * (ram.DeliveryHeadM - ram.SupplyHeadM) * cycle.DeliveredM3;
        double kinetic = 0.5 * ram.AreaM2 * ram.LengthM * 4 * x * x;
        Assert.Equal(kinetic, lifted, kinetic * 1e-9);
    });

    [Fact]
    public void A_stiff_enough_pipe_makes_the_elastic_beat_the_rigid_one() => Gen.Select(Rams, Gen.Double[0.2, 0.95]).Sample((ram, x) =>
    {
        RamGeometry stiff = ram with { WaveSpeedMPerS = 1e7 };
        (RamCycle? elastic, RamCycle? rigid) = (RamCycle.Elastic(stiff, 2, 2 * x), RamCycle.Rigid(stiff, 2, 2 * x));
        Assert.Equal(rigid.DeliveredM3, elastic.DeliveredM3, rigid.DeliveredM3 * 0.01);
        Assert.Equal(rigid.WasteM3, elastic.WasteM3, rigid.WasteM3 * 1e-9);
    });

    [Fact]
    public void The_closed_form_open_phase_agrees_with_stepping_through_it()
    {
        var ram = new RamGeometry { LengthM = 15, BoreM = 0.05, SupplyHeadM = 2.5, DeliveryHeadM = 20, WaveSpeedMPerS = 1300 };
        (double v, double t, double volume) = (0.3, 0.0, 0.0);
        const double dt = 1e-5;
        while (v < 1.2)
        {
            double faster = v + dt * 9.80665 * 2.5 / 15 * (1 - v * v / (1.8 * 1.8));
            volume += ram.AreaM2 * (v + faster) / 2 * dt;
            (v, t) = (faster, t + dt);
        }

        var cycle = RamCycle.Rigid(ram, 1.8, 1.2, 0.3);
        Assert.Equal(t, cycle.OpenS, t * 1e-3);
        Assert.Equal(volume, cycle.WasteM3, volume * 1e-3);
    }

    [Fact]
    public void A_surge_too_weak_for_the_delivery_head_is_said_to_deliver_nothing()
    {
        var ram = new RamGeometry { LengthM = 10, BoreM = 0.03, SupplyHeadM = 1, DeliveryHeadM = 90, WaveSpeedMPerS = 300 };
        var expected = ExpectedRam.For(ram, WaterProperties.At(12), 1e-5);
        Assert.Equal(0, expected.DeliveredM3PerS.High);
        Assert.Contains(expected.Notes, n => n.Code == ProportionCode.DeliversNothing);
    }

    // Common practice: 4 to 7 or 5 to 10 times the fall. What is said to be usual is what is held to be so.
    [Theory]
    [InlineData(9.9, true)]
    [InlineData(10.1, false)]
    [InlineData(24.9, false)]
    [InlineData(25.1, true)]
    public void A_drive_pipe_outside_four_to_ten_times_the_head_is_said_to_be(double lengthM, bool isSaid)
    {
        var ram = new RamGeometry { LengthM = lengthM, BoreM = 0.05, SupplyHeadM = 2.5, DeliveryHeadM = 20, WaveSpeedMPerS = 1300 };
        IReadOnlyList<ProportionNote> notes = ExpectedRam.For(ram, WaterProperties.At(12), 1e-4).Notes;
        Assert.Equal(isSaid, notes.Any(n => n is { Code: ProportionCode.Reach, Low: 4, High: 10 }));
    }

    [Fact]
    public void A_measured_closing_velocity_narrows_what_is_expected()
    {
        var ram = new RamGeometry { LengthM = 15, BoreM = 0.05, SupplyHeadM = 2.5, DeliveryHeadM = 20, WaveSpeedMPerS = 1300 };
        var wide = ExpectedRam.For(ram, WaterProperties.At(12), 1e-4);
        var narrow = ExpectedRam.For(
            ram, WaterProperties.At(12), 1e-4, new RamAssumptions { ClosingVelocityMPerS = new Band(1.1, 1.2) });
        Assert.True(wide.PeakCeilingPa.Low < narrow.PeakCeilingPa.Low && narrow.PeakCeilingPa.High < wide.PeakCeilingPa.High);
    }

    [Fact]
    public void A_delivery_below_the_source_is_no_ram() => Assert.Throws<ArgumentOutOfRangeException>(() => ExpectedRam.For(
        new RamGeometry { LengthM = 15, BoreM = 0.05, SupplyHeadM = 5, DeliveryHeadM = 4, WaveSpeedMPerS = 1300 },
        WaterProperties.At(12),
        1e-4));
}
