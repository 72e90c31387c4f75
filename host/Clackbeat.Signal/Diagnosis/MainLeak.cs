using Clackbeat.Signal.Figures;
using Clackbeat.Site.Facts;
using MathNet.Numerics.Distributions;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// Tells a delivery main that leaks from a delivery valve that leaks. Both lower the plateau, and the beat has no other sign of either.
/// But a main that is full up to its outlet stands on the air vessel with its whole height (Pascal's law): a leaking valve can take away
/// the friction head of the main and no more. A plateau under the static pressure of the outlet is water that leaves below it.
/// </summary>
internal static class MainLeak
{
    // How well a keeper knows the height of the outlet, as a standard uncertainty: a judgement.
    private const double HeadShare = 0.02;

    // Plateaus of leaking valves lie within a tenth above that height, those of leaking mains over the half below it (rams of the choosing set):
    // near the height the valve is five times as likely.
    private const double NearForValve = 5;

    // From here on it is a finding of its own, whatever else the beat shows.
    private const double Certain = 0.97;

    // With a baseline only the ram can have changed, or the sensor. Without one the site file's height may be wrong: judgements.
    private const double TrustWithBaseline = 0.95;
    private const double TrustInSite = 0.5;

    /// <summary>Splits what the beat says of a leak behind the delivery valve between valve and main, the likeliest first.</summary>
    /// <param name="findings">What the model found.</param>
    /// <param name="input">The record.</param>
    public static List<Finding> Split(IReadOnlyList<Finding> findings, DiagnosisInput input)
    {
        if (Below(input) is not { } below)
        {
            return [.. findings];
        }

        Finding? valve = findings.FirstOrDefault(f => f.Condition == Conditions.DeliveryValveLeaking);
        double ofMain = below.Probability / (below.Probability + (NearForValve * (1 - below.Probability)));
        double main = ofMain * (valve?.Probability ?? 0);
        if (below.Probability > Certain)
        {
            main = Math.Max(main, below.Probability * (input.Baseline is null ? TrustInSite : TrustWithBaseline));
        }

        if (main < Diagnoser.LeastProbability)
        {
            return [.. findings];
        }

        // A leak that is in the main is not in the valve, and a ram that loses water below its outlet is not well.
        IEnumerable<Finding> others = findings.Select(f => f.Condition switch
        {
            Conditions.DeliveryValveLeaking => f with { Probability = f.Probability * (1 - ofMain) },
            Conditions.Healthy => f with { Probability = f.Probability * (1 - main) },
            _ => f,
        });
        Finding found = new(Conditions.DeliveryMainLeaking, main, [below.Evidence], ConditionTraits.Advice(Conditions.DeliveryMainLeaking))
        {
            Parts = [ConditionTraits.Of(Conditions.DeliveryMainLeaking).Where],
        };
        return [.. others.Append(found).Where(f => f.Probability >= Diagnoser.LeastProbability).OrderByDescending(f => f.Probability)];
    }

    /// <summary>How likely the plateau stands under the static pressure of the outlet; null where it wasn't measured.</summary>
    private static (double Probability, Fact Evidence)? Below(DiagnosisInput input)
    {
        if (input.Signature is not { } now)
        {
            return null;
        }

        // Where the ram already stood lower when it was well, the height in the site file is too large, or the sensor reads too little.
        double staticPa = input.Hydraulics.PressurePa(input.Site.Delivery.HeadM - input.Site.Sensor.HeightM);
        double fullPa = Math.Min(staticPa, input.Baseline?.DeliveryPa ?? staticPa);
        double sensorPa = SensorAccuracy.StandardPa(input.Site.Sensor, staticPa);
        double probability = Normal.CDF(0, Math.Sqrt((sensorPa * sensorPa) + Math.Pow(HeadShare * staticPa, 2)), fullPa - now.DeliveryPa);
        return (probability, Fact.Of("evidence-plateau-under-outlet", ("plateau_kpa", now.DeliveryPa / 1000), ("outlet_kpa", fullPa / 1000)));
    }
}
