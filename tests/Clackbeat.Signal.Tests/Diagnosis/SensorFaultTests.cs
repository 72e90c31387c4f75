using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.VirtualRam.Conditions;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>A sensor that lies is named before any fault of the ram.</summary>
public class SensorFaultTests
{
    [Theory]
    [InlineData(SensorFaultKind.FlatLine)]
    [InlineData(SensorFaultKind.OpenLoop)]
    [InlineData(SensorFaultKind.Clipping)]
    [InlineData(SensorFaultKind.Inverted)]
    [InlineData(SensorFaultKind.Noisy)]
    [InlineData(SensorFaultKind.AirInTap)]
    public void Each_way_to_lie_is_seen(SensorFaultKind kind)
    {
        RamAnalysis analysis = Clinic.Examine(Rams.Steel, Clinic.Ill(Conditions.SensorFault, 0.9, kind), lengthS: 20);
        Assert.Equal(Conditions.SensorFault, analysis.Diagnosis[0].Condition);
        Assert.True(analysis.Diagnosis[0].Probability > 0.75);
    }

    [Fact]
    public void A_sensor_that_freezes_during_the_record_is_no_stopped_ram()
    {
        (double[] times, double[] pressures, List<VirtualRam.Truth.VirtualBeat> _) = Rams.Record(Rams.Steel, 30);
        double[] frozen = [.. pressures];
        frozen.AsSpan(frozen.Length / 2).Fill(frozen[frozen.Length / 2]);

        Assert.Equal(Conditions.SensorFault, Rams.Analyse(Rams.Steel, times, frozen).Diagnosis[0].Condition);
    }
}
