using Clackbeat.Signal.States;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>Tells a ram that stopped shut from one that stopped open, from one without water and from a dead sensor.</summary>
internal static class SilentRam
{
    // Under this share of the supply head the body may hold no water at all.
    private const double NoHead = 0.05;

    // As likely as not.
    private const double LikelyCause = 0.5;

    /// <summary>The findings, most probable first.</summary>
    public static IEnumerable<Finding> Judge(DiagnosisInput input)
    {
        double restPa = input.State.RestPa ?? 0;
        double zeroPa = input.Signature?.OpenPa ?? -input.Hydraulics.PressurePa(input.Site.Sensor.HeightM);
        double share = (restPa - zeroPa) / input.SupplyPa;
        bool zeroKnown = input.Signature is not null;
        var level = Fact.Of("stopped-level", ("head_share", share));
        Fact zero = zeroKnown ? Fact.Of("stopped-zero-checked") : Fact.Of("stopped-zero-unchecked");
        if (share < NoHead)
        {
            // A wide open valve, an empty pipe and a dead sensor all read nothing.
            yield return Of(Conditions.StoppedOpen, zeroKnown ? 0.7 : 0.45, [level, zero]);
            yield return Of(Conditions.SupplyStarved, zeroKnown ? 0.25 : 0.3, [level, Fact.Of("stopped-no-water")]);
            yield return Of(Conditions.SensorFault, zeroKnown ? 0.05 : 0.25, [level, Fact.Of("stopped-sensor-reads-nothing")]);
            yield break;
        }

        bool shut = input.State.State == RamState.StoppedShut;
        double clear = Math.Min(1, Math.Abs(share - StandstillRule.Border(zeroKnown)) / StandstillRule.Doubtful(zeroKnown));
        double probability = 0.5 + ((zeroKnown ? 0.47 : 0.35) * clear);
        Fact meaning = shut ? Fact.Of("stopped-full-head") : Fact.Of("stopped-head-missing");
        yield return Of(shut ? Conditions.StoppedShut : Conditions.StoppedOpen, probability, [level, meaning, zero]);
        if (probability < 0.9)
        {
            yield return Of(shut ? Conditions.StoppedOpen : Conditions.StoppedShut, 0.95 - probability, [level, Fact.Of("stopped-near-border")]);
        }
    }

    /// <summary>A stop with its likely cause, where the last beats show a fault that is known to end so.</summary>
    /// <param name="stop">The stop.</param>
    /// <param name="lastBeats">What the last beats speak for, most probable first.</param>
    public static Finding WithCause(Finding stop, IReadOnlyList<Finding> lastBeats)
    {
        string[] causes = stop.Condition switch
        {
            Conditions.StoppedShut => [Conditions.WasteValveLeaking, Conditions.SupplyStarved, Conditions.DeliveryValveLeaking, Conditions.AirInDrivePipe],
            Conditions.StoppedOpen => [Conditions.SupplyStarved, Conditions.WasteValveSticking],
            _ => [],
        };
        return lastBeats.FirstOrDefault(f => causes.Contains(f.Condition) && f.Probability >= LikelyCause) is { } cause
            ? stop with { Evidence = [.. stop.Evidence, Fact.Of("stopped-likely-cause", ("condition", ConditionTraits.Name(cause.Condition)))] }
            : stop;
    }

    private static Finding Of(string condition, double probability, IReadOnlyList<Fact> evidence) =>
        new(condition, probability, evidence, ConditionTraits.Advice(condition)) { Parts = [ConditionTraits.Of(condition).Where] };
}
