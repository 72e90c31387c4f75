using Clackbeat.Commands.Simulate;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Records.Sources;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Acceptance;

/// <summary>A virtual logger, read over its line as fast as it sends, analysed and recorded at once.</summary>
internal static class RecordedLine
{
    /// <summary>Makes a recording.</summary>
    /// <param name="path">The file.</param>
    /// <param name="site">The ram's site.</param>
    /// <param name="chain">The ram and its sensor.</param>
    /// <param name="length">For how long.</param>
    /// <param name="documents">What travels in the recording.</param>
    /// <returns>What the line told while it was recorded.</returns>
    public static RamAnalysis Make(string path, RamSite site, VirtualChain chain, TimeSpan length, params IReadOnlyList<RecordingDocument> documents)
    {
        using ServedLogger logger = VirtualLogger.VirtualLogger.Connect(chain.Source, new VirtualLoggerOptions { Pace = Pace.AsFastAsRead }, CancellationToken.None);
        using var writer = new RecordingWriter(DiskStore.Create(path), TimeProvider.System);
        var line = new LineSource(
            new OpenLine(logger.HostStream!), site, new RecorderOptions { Length = length, Documents = [], Program = "test" }, TimeProvider.System)
        {
            Met = hello => writer.Begin(SessionHeader.Of(hello, SessionSource.Line, "test", "line"), documents),
            Chunk = (chunk, _) => writer.AddBytes(chunk.Bytes, writer.ElapsedAt(chunk.Timestamp)),
        };
        RamAnalysis analysis = RecordAnalysis.Of(line, site);
        writer.End(EndReason.TimeUp, analysis.Input.Samples);
        return analysis;
    }

    private sealed class OpenLine(Stream line) : ILineOpener
    {
        public string Name => "the line of this test";

        public Stream Open() => line;
    }
}
