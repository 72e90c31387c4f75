namespace Clackbeat.Signal.Diagnosis;

/// <summary>What the features of a well ram depend on, so that what is usual can be said for this very site and recording. All logarithms.</summary>
public enum Covariate
{
    /// <summary>Supply head [m].</summary>
    SupplyHead,

    /// <summary>Delivery head over supply head.</summary>
    Lift,

    /// <summary>Length of the drive pipe [m].</summary>
    PipeLength,

    /// <summary>Bore of the drive pipe [m].</summary>
    PipeBore,

    /// <summary>Wave speed of the site [m/s].</summary>
    SiteWaveSpeed,

    /// <summary>Samples in a pipe period.</summary>
    Sampling,

    /// <summary>Noise of the sensor, of the jump.</summary>
    Noise,
}
