using Clackbeat.Frame;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.Words;

namespace Clackbeat.Commands.Simulate;

/// <summary>
/// The demo's way from a converter to a recording: the firmware, its frames, a serial port made by the system, or a line
/// inside this process where the system has none, and the recorder that serves a real logger.
/// </summary>
internal static class DemoRecording
{
    /// <summary>
    /// Records so many seconds of the logger's own time, and what was on its way then. The logger runs ahead of time and
    /// nothing is lost. A recording of that name is replaced once the new one is whole.
    /// </summary>
    /// <param name="source">What the converter sees.</param>
    /// <param name="path">The recording to write.</param>
    /// <param name="documents">Texts that travel along.</param>
    /// <param name="lengthS">How long [s of device time].</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="stop">Ends the work early.</param>
    public static RecorderSummary Run(
        IConverterSource source,
        string path,
        IReadOnlyList<RecordingDocument> documents,
        double lengthS,
        IProgress<double> progress,
        CancellationToken stop)
    {
        string unfinished = $"{path}.{Environment.ProcessId}.part";
        try
        {
            RecorderSummary summary;
            using (var writer = new RecordingWriter(DiskStore.Create(unfinished), TimeProvider.System))
            {
                summary = Record(source, writer, documents, lengthS, progress, stop);
            }

            stop.ThrowIfCancellationRequested();
            File.Move(unfinished, path, overwrite: true);
            return summary;
        }
        finally
        {
            File.Delete(unfinished);
        }
    }

    private static RecorderSummary Record(
        IConverterSource source,
        RecordingWriter writer,
        IReadOnlyList<RecordingDocument> documents,
        double lengthS,
        IProgress<double> progress,
        CancellationToken stop)
    {
        VirtualLoggerOptions options = new() { Pace = Pace.AsFastAsRead };
        bool hasPort = VirtualLogger.VirtualLogger.CanServe;
        using ServedLogger logger = hasPort
            ? VirtualLogger.VirtualLogger.Serve(source, options, stop)
            : VirtualLogger.VirtualLogger.Connect(source, options, stop);

        using var over = CancellationTokenSource.CreateLinkedTokenSource(stop);
        var recorder = new Recorder(
            hasPort ? new SerialLine(logger.PortPath!) : new OpenLine(logger.HostStream!),
            new RecorderOptions { Length = TimeSpan.FromSeconds(lengthS), Documents = documents, Program = ProgramVersion.Number },
            writer,
            TimeProvider.System)
        {
            Progress = Show,
        };
        RecorderSummary summary = recorder.Run(over.Token);
        return summary.Reason == EndReason.TimeUp || stop.IsCancellationRequested
            ? summary
            : throw new IOException($"the virtual logger was not recorded to its end: {summary.DiskFault ?? "it fell silent"}.");

        void Show(RecorderProgress recorded)
        {
            progress.Report(Math.Min(1, recorded.RecordedS / lengthS));
            if (logger.Completion.IsCompleted)
            {
                // A recorder waits for a lost logger as long as it must; one that has ended for good is not waited for.
                over.Cancel();
            }
        }
    }

    private sealed class OpenLine(Stream line) : ILineOpener
    {
        public string Name => Phrases.Say("virtual.line");

        public Stream Open() => line;
    }
}
