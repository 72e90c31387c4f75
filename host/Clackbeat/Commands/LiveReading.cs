using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Link;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site;

namespace Clackbeat.Commands;

/// <summary>Averages a standing pressure over some seconds of a live logger.</summary>
internal static class LiveReading
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    /// <summary>Reads until so many seconds of samples are there; throws where the pressure doesn't stand still.</summary>
    public static StillReading Take(Session session, string port, double seconds, SignalPath path)
    {
        using LoggerLink link = LoggerLink.Open(port);
        link.Identify(Patience);
        link.Start(new StartCommand());
        List<LoggerSample> samples = session.WithProgress("Reading the standing pressure", progress =>
        {
            List<LoggerSample> taken = [];
            while (Seconds(taken) < seconds)
            {
                session.Stop.ThrowIfCancellationRequested();
                taken.AddRange(link.Take(Patience) ?? throw new InputException(
                    $"The logger on {port} sends no more samples. Check cable and power, then take the point again."));
                progress.Report(Math.Min(1, Seconds(taken) / seconds));
            }

            return taken;
        });
        link.Stop();
        double spanCounts = path.SpanPa / path.StepPa;
        StillReading reading = StillReading.Of(
            [.. samples.Select(s => (double)s.Counts)],
            [.. samples.Where(s => s.SupplyCounts is not null).Select(s => (double)s.SupplyCounts!.Value)],
            spanCounts);
        return reading.IsStill
            ? reading
            : throw new InputException(string.Create(
                CultureInfo.InvariantCulture,
                $"The pressure does not stand still: it wandered by {reading.WanderCounts:0.0} counts in {seconds:0.#} s and scatters by {reading.Scatter:0.0}. Stop the ram, let a column come to rest, close the pump's valve, then take the point again."));
    }

    private static double Seconds(List<LoggerSample> samples) => samples.Count < 2
        ? 0
        : (samples[^1].DeviceTimeMicroseconds - samples[0].DeviceTimeMicroseconds) * 1e-6;
}
