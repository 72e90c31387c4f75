using Clackbeat.Commands.Describe;
using Clackbeat.Commands.Simulate;
using Clackbeat.Frame;
using Clackbeat.Recording.Link;
using Clackbeat.Records.Samples;
using Clackbeat.Records.Sources;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualRam.Design;
using Clackbeat.Watch.Checks;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Sources;
using Clackbeat.Watch.Tuning;
using Clackbeat.Words;

namespace Clackbeat.Commands.Watch;

/// <summary>What a watch looks at: samples, and a desk that records them where that makes sense.</summary>
internal interface IWatchInput : IDisposable
{
    /// <summary>The samples.</summary>
    LiveSource Source { get; }

    /// <summary>Records them; null for a record.</summary>
    RecordingDesk? Desk { get; }

    /// <summary>The record; null for live samples.</summary>
    string? ReplayPath { get; }

    /// <summary>Turns the valve of a virtual ram; null for any other.</summary>
    IRamKnob? Knob { get; }

    /// <summary>Makes tests by hand at a virtual ram; null for any other.</summary>
    IRamHands? Hands { get; }
}

/// <summary>A logger on a port.</summary>
internal sealed class WatchPort(LiveSource source, RecordingDesk desk) : IWatchInput
{
    public LiveSource Source => source;

    public RecordingDesk? Desk => desk;

    public string? ReplayPath => null;

    public IRamKnob? Knob => null;

    public IRamHands? Hands => null;

    public void Dispose() => desk.Dispose();
}

/// <summary>A virtual ram behind the firmware, its frames and a line, which differ from the real ones in nothing that a host sees.</summary>
internal sealed class WatchVirtual : IWatchInput
{
    private readonly RecordingDesk _desk;
    private readonly ServedLogger _logger;

    public WatchVirtual(Session session, WatchRequest request, RamSite site, RecordingDesk desk)
    {
        _desk = desk;
        RamDesign design = request.Simulation.Design(site);
        foreach (Fact warning in design.Warnings)
        {
            session.Warn(Catalogue.Current.Say(warning));
        }

        var chain = new VirtualChain(site, design, request.Simulation.On(design.Sensor), request.Simulation.Options);
        Knob = new VirtualKnob(chain, design.Ram);
        Hands = new VirtualHands(chain);
        bool hasPort = VirtualLogger.VirtualLogger.CanServe;
        _logger = hasPort
            ? VirtualLogger.VirtualLogger.Serve(chain.Source, chain.Fitted(request.VirtualLogger), session.Stop)
            : VirtualLogger.VirtualLogger.Connect(chain.Source, chain.Fitted(request.VirtualLogger), session.Stop);
        ILineOpener line = hasPort ? new SerialLine(_logger.PortPath!) : new OpenLine(_logger.HostStream!);
        Source = new LoggerSource(line, site, request.Recorder(SiteDocuments.Of(request.Simulation.SitePath)), desk, SourceKind.Virtual);
    }

    public LiveSource Source { get; }

    public RecordingDesk? Desk => _desk;

    public string? ReplayPath => null;

    public IRamKnob Knob { get; }

    public IRamHands Hands { get; }

    public void Dispose()
    {
        _logger.Dispose();
        _desk.Dispose();
    }

    private sealed class OpenLine(Stream line) : ILineOpener
    {
        public string Name => Phrases.Say("virtual.line");

        public Stream Open() => line;
    }
}

/// <summary>A finished record, played again as time runs or faster.</summary>
internal sealed class WatchReplay(ISampleSource record, string path, double speed) : LiveSource, IWatchInput
{
    // Pieces as a logger's frames bring them.
    private const double PieceS = 0.02;

    public override string Name => Path.GetFileName(path);

    public override SourceKind Kind => SourceKind.Replay;

    public LiveSource Source => this;

    public RecordingDesk? Desk => null;

    public string? ReplayPath => path;

    public IRamKnob? Knob => null;

    public IRamHands? Hands => null;

    public override void Run(LivePipeline pipeline, CancellationToken cancellation)
    {
        pipeline.Tell(LinkState.Streaming, $"Playing {Name}.");
        var piece = new Piece(pipeline, speed, cancellation);
        var conditioner = new TraceConditioner(piece.Add);
        record.Read(samples =>
        {
            foreach (ref readonly Sample sample in samples)
            {
                conditioner.Add(sample.TimeS, sample.PressurePa);
            }
        }, null, cancellation);
        conditioner.Finish();
        piece.Send();
    }

    public void Dispose()
    {
    }

    private sealed class Piece(LivePipeline pipeline, double speed, CancellationToken stop)
    {
        private readonly long _began = TimeProvider.System.GetTimestamp();
        private readonly List<double> _timesS = [];
        private readonly List<double> _pressuresPa = [];
        private double _firstS = double.NaN;

        public void Add(double timeS, double pressurePa)
        {
            _firstS = double.IsNaN(_firstS) ? timeS : _firstS;
            if (_timesS.Count > 0 && timeS - _timesS[0] >= PieceS * Math.Max(1, speed))
            {
                Send();
            }

            _timesS.Add(timeS);
            _pressuresPa.Add(pressurePa);
        }

        public void Send()
        {
            if (_timesS.Count == 0)
            {
                return;
            }

            TimeSpan early = TimeSpan.FromSeconds((_timesS[^1] - _firstS) / speed) - TimeProvider.System.GetElapsedTime(_began);
            if (early > TimeSpan.Zero)
            {
                stop.WaitHandle.WaitOne(early);
            }

            stop.ThrowIfCancellationRequested();
            pipeline.Take(
                System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_timesS),
                System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_pressuresPa));
            _timesS.Clear();
            _pressuresPa.Clear();
        }
    }
}
