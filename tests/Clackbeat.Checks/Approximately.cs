namespace Clackbeat.Checks;

/// <summary>Comparison with the tolerance a published figure deserves.</summary>
internal static class Approximately
{
    internal static void Equal(double published, double ours, double relativeTolerance)
    {
        double difference = Math.Abs(ours - published);
        Assert.True(
            difference <= relativeTolerance * Math.Abs(published),
            $"published {published:G7}, ours {ours:G7}: {difference / Math.Abs(published):P2} apart, {relativeTolerance:P2} allowed");
    }
}
