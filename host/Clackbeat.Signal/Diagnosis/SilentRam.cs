using System.Globalization;
using Clackbeat.Signal.Analysis;

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
        string level = string.Create(CultureInfo.InvariantCulture, $"No beat at the end of the record: the body stands at {100 * share:0} % of the supply head.");
        string zero = zeroKnown
            ? "The sensor's zero was checked against the open phase of the beats before."
            : "No beat was seen, so the sensor's zero could not be checked.";
        if (share < NoHead)
        {
            // A wide open valve, an empty pipe and a dead sensor all read nothing.
            yield return Of(Conditions.StoppedOpen, zeroKnown ? 0.7 : 0.45, [level, zero]);
            yield return Of(Conditions.SupplyStarved, zeroKnown ? 0.25 : 0.3, [level, "An empty supply, a shut gate valve or a drive pipe without water reads the same."]);
            yield return Of(Conditions.SensorFault, zeroKnown ? 0.05 : 0.25, [level, "A sensor that doesn't read looks the same: see whether water runs from the waste valve."]);
            yield break;
        }

        bool shut = input.State.State == RamState.StoppedShut;
        double clear = Math.Min(1, Math.Abs(share - StateJudge.Border(zeroKnown)) / StateJudge.Doubtful(zeroKnown));
        double probability = 0.5 + ((zeroKnown ? 0.47 : 0.35) * clear);
        string meaning = shut
            ? "Standing water under a shut waste valve presses with the full supply head."
            : "Running water loses most of its head in the drive pipe, so the waste valve stands open.";
        yield return Of(shut ? Conditions.StoppedShut : Conditions.StoppedOpen, probability, [level, meaning, zero]);
        if (probability < 0.9)
        {
            yield return Of(shut ? Conditions.StoppedOpen : Conditions.StoppedShut, 0.95 - probability, [level, "The level lies too near the border to be sure, or the sensor's zero is unknown: look at the valve."]);
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
            ? stop with { Evidence = [.. stop.Evidence, $"The likely cause, by its last beats: {ConditionText.Of(cause.Condition).Name}."] }
            : stop;
    }

    private static Finding Of(string condition, double probability, IReadOnlyList<string> evidence)
    {
        ConditionText text = ConditionText.Of(condition);
        return new Finding(condition, probability, evidence, text.Advice) { Parts = [text.Where] };
    }
}
