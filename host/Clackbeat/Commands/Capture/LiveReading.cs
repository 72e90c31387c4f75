using Clackbeat.Frame;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Link;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>Averages a standing pressure over some seconds of a live logger.</summary>
internal static class LiveReading
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    /// <summary>Reads until so many seconds of samples are there; throws where the pressure doesn't stand still.</summary>
    public static StillReading Take(Session session, string port, double seconds, SignalPath path)
    {
        using var link = LoggerLink.Open(port);
        link.Identify(Patience);
        link.Start(new StartCommand());
        List<LoggerSample> samples = session.WithProgress(Phrases.Say("calibrate.reading"), progress =>
        {
            List<LoggerSample> taken = [];
            while (Seconds(taken) < seconds)
            {
                session.Stop.ThrowIfCancellationRequested();
                taken.AddRange(link.Take(Patience) ?? throw InputException.Of("line.no-more-samples", ("port", port)));
                progress.Report(Math.Min(1, Seconds(taken) / seconds));
            }

            return taken;
        });
        link.Stop();
        double spanCounts = path.SpanPa / path.StepPa;
        var reading = StillReading.Of(
            [.. samples.Select(s => (double)s.Counts)],
            [.. samples.Where(s => s.SupplyCounts is not null).Select(s => (double)s.SupplyCounts!.Value)],
            spanCounts);
        return reading.IsStill
            ? reading
            : throw InputException.Of("calibrate.not-still", ("wander", reading.WanderCounts), ("seconds_s", seconds), ("scatter", reading.Scatter));
    }

    private static double Seconds(List<LoggerSample> samples) => samples.Count < 2
        ? 0
        : (samples[^1].DeviceTimeMicroseconds - samples[0].DeviceTimeMicroseconds) * 1e-6;
}
