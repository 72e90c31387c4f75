using Clackbeat.Signal.Figures;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>What a record's beats look like, in numbers that speak of the ram's condition, and as a picture.</summary>
public sealed record Signature
{
    /// <summary>The features that the record could give; one that is missing could not be measured.</summary>
    public required IReadOnlyDictionary<Feature, double> Features { get; init; }

    /// <summary>What features depend on in a well ram too: site and recording.</summary>
    public required IReadOnlyDictionary<Covariate, double> Covariates { get; init; }

    /// <summary>The median beat, time 0 at the closure; from somewhat before it to the next closure.</summary>
    public required TraceCurve Typical { get; init; }

    /// <summary>Fall of the body's pressure through half the jump, in the median beat [s after closure].</summary>
    public required double DeliveryEndS { get; init; }

    /// <summary>Level at rest with the waste valve open [Pa gauge].</summary>
    public required double OpenPa { get; init; }

    /// <summary>Level of the delivery plateau [Pa gauge].</summary>
    public required double DeliveryPa { get; init; }

    /// <summary>Median interval [s].</summary>
    public required double IntervalS { get; init; }
}
