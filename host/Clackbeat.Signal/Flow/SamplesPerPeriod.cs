namespace Clackbeat.Signal.Flow;

/// <summary>
/// How finely a record must follow the waves of the drive pipe, in samples for each pipe period 2L/a. Chosen on the virtual rams of
/// docs/flow-method.md.
/// </summary>
internal static class SamplesPerPeriod
{
    /// <summary>
    /// Under this the end of the delivery, the recoil and the echoes fall between the samples: flow and diagnosis are withheld.
    /// </summary>
    public const double Least = 3;

    /// <summary>From this on the errors no longer grow as the samples get fewer.</summary>
    public const double Good = 6;
}
