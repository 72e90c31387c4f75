using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Link;
using Clackbeat.Records.Samples;
using Clackbeat.Records.Sources;
using Clackbeat.Site.Model;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Words;

namespace Clackbeat.Watch.Sources;

/// <summary>A logger on a line: its samples go to the pipeline, and its bytes to a file while somebody records.</summary>
/// <param name="opener">Opens the line.</param>
/// <param name="site">The ram; turns counts into pressure.</param>
/// <param name="options">How to ask the logger.</param>
/// <param name="desk">Takes what is recorded.</param>
/// <param name="kind">A real logger or a virtual one.</param>
public sealed class LoggerSource(
    ILineOpener opener, RamSite site, RecorderOptions options, RecordingDesk desk, SourceKind kind) : LiveSource
{
    private readonly List<double> _timesS = [];
    private readonly List<double> _pressuresPa = [];

    /// <inheritdoc/>
    public override string Name => opener.Name;

    /// <inheritdoc/>
    public override SourceKind Kind => kind;

    /// <inheritdoc/>
    public override void Run(LivePipeline pipeline, CancellationToken cancellation)
    {
        var line = new LineSource(opener, site, options, TimeProvider.System)
        {
            Met = hello => desk.Meet(hello, opener.Name),
            Chunk = desk.Take,
            News = news =>
            {
                desk.Tell(news.State);
                pipeline.Tell(StateOf(news.State), Catalogue.Current.Say(news.What));
            },
        };
        line.Ticked = () =>
        {
            pipeline.Count(new SourceCounts(line.Losses.LostPoints, line.Losses.SkippedPoints, line.Losses.Restarts));
            desk.Tick();
        };
        try
        {
            line.Read(samples => Take(samples, pipeline), null, cancellation);
        }
        finally
        {
            desk.End();
        }
    }

    private void Take(ReadOnlySpan<Sample> samples, LivePipeline pipeline)
    {
        foreach (ref readonly Sample sample in samples)
        {
            _timesS.Add(sample.TimeS);
            _pressuresPa.Add(sample.PressurePa);
        }

        pipeline.Take(
            System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_timesS), System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_pressuresPa));
        _timesS.Clear();
        _pressuresPa.Clear();
    }

    private static LinkState StateOf(RecorderState state) => state switch
    {
        RecorderState.Asking => LinkState.Asking,
        RecorderState.Recording => LinkState.Streaming,
        RecorderState.Silent => LinkState.Silent,
        RecorderState.PortRefused => LinkState.Refused,
        RecorderState.WrongDevice or RecorderState.WrongVersion => LinkState.Wrong,
        _ => LinkState.Lost,
    };
}
