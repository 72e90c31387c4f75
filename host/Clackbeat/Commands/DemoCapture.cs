using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Link;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;

namespace Clackbeat.Commands;

/// <summary>
/// The demo's way from a converter to samples on this side of a line: the firmware, its frames, and a serial port made
/// by the system, or a line inside this process where the system has none.
/// </summary>
internal static class DemoCapture
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    /// <summary>Captures so many seconds of the logger's own time. The logger runs ahead of time and nothing is lost.</summary>
    /// <param name="source">What the converter sees.</param>
    /// <param name="lengthS">How long [s of device time].</param>
    /// <param name="take">Takes each sample.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="stop">Ends the work early.</param>
    /// <returns>What is missing; nothing, by rights.</returns>
    public static LossAccount Run(
        IConverterSource source, double lengthS, Action<LoggerSample> take, IProgress<double> progress, CancellationToken stop)
    {
        VirtualLoggerOptions options = new() { Pace = Pace.AsFastAsRead };
        bool hasPort = VirtualLogger.VirtualLogger.CanServe;
        using ServedLogger logger = hasPort
            ? VirtualLogger.VirtualLogger.Serve(source, options, stop)
            : VirtualLogger.VirtualLogger.Connect(source, options, stop);
        using LoggerLink link = hasPort ? LoggerLink.Open(logger.PortPath!) : LoggerLink.Over(logger.HostStream!);
        link.Identify(Patience);
        link.Start(new StartCommand());
        long? firstUs = null;
        long lengthUs = (long)(lengthS * 1e6);
        while (true)
        {
            stop.ThrowIfCancellationRequested();
            IReadOnlyList<LoggerSample> batch = link.Take(Patience)
                ?? throw new IOException("the virtual logger fell silent.");
            foreach (LoggerSample sample in batch)
            {
                firstUs ??= sample.DeviceTimeMicroseconds;
                if (sample.DeviceTimeMicroseconds - firstUs >= lengthUs)
                {
                    link.Stop();
                    return link.Reader.Losses;
                }

                take(sample);
            }

            progress.Report((batch[^1].DeviceTimeMicroseconds - firstUs!.Value) / (double)lengthUs);
        }
    }
}
