namespace Clackbeat.Watch.Checks;

/// <summary>Does at a ram that exists only in the computer what a keeper does at one of iron.</summary>
public interface IRamHands
{
    /// <summary>Does what a phase of a test asks for.</summary>
    /// <param name="test">Code of the test.</param>
    /// <param name="phase">Code of the phase that begins now.</param>
    void Act(string test, string phase);

    /// <summary>The test is over: the ram runs again, as it was or as the test has mended it.</summary>
    /// <param name="test">Code of the test.</param>
    void Leave(string test);

    /// <summary>What a bucket at the outlet of the main gets while it is watched [m³/s]; null where nothing beats yet.</summary>
    double? ArrivingM3PerS { get; }
}
