using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Protocol.Samples;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Link;

/// <summary>Says why a logger refused to start.</summary>
internal static class StartRefusal
{
    private static int MostOnTheUsualLine =>
        1_000_000 / SampleFrameWriter.LeastPeriodMicroseconds(SerialLine.UsualBaud, supplyEvery: 32, deliveryEvery: 0, isWide: false) / 100 * 100;

    public static Fact Of(string name, int result, StartCommand command) => result == Results.OutOfRange
        ? Fact.Of("line.refuses-period", ("port", name), ("period_us", command.PeriodMicroseconds), ("low_us", ProtocolVersion.MinPeriodMicroseconds), ("high_us", ProtocolVersion.MaxPeriodMicroseconds), ("baud", SerialLine.UsualBaud), ("most_hz", MostOnTheUsualLine))
        : Fact.Of("line.refuses", ("port", name), ("result", result));
}
