using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Commands.Simulate;
using Clackbeat.Frame;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Commands.Watch;

/// <summary>What was asked of watch.</summary>
internal sealed record WatchRequest
{
    public required string Input { get; init; }

    public required SimulationRequest Simulation { get; init; }

    public required VirtualLoggerOptions VirtualLogger { get; init; }

    public required RecordReading Reading { get; init; }

    public required string? Baseline { get; init; }

    /// <summary>Leave out the baseline saved beside the site file.</summary>
    public required bool IsWithoutBaseline { get; init; }

    public required int HttpPort { get; init; }

    public required bool IsOpenToLan { get; init; }

    public required double Speed { get; init; }

    public required int Baud { get; init; }

    public required string Folder { get; init; }

    public required TimeSpan? Length { get; init; }

    /// <summary>Says which option of a virtual ram was given though none is watched; null for none.</summary>
    public required string? VirtualOption { get; init; }

    /// <summary>The same for an option of a replay.</summary>
    public required string? ReplayOption { get; init; }

    /// <summary>How to ask a logger.</summary>
    public RecorderOptions Recorder(IReadOnlyList<RecordingDocument> documents) => new()
    {
        Start = new StartCommand { PeriodMicroseconds = RateHz is { } hz ? (uint)Math.Round(1e6 / hz) : 0 },
        Documents = documents,
        Program = ProgramVersion.Number,
    };

    public required double? RateHz { get; init; }

    public void RefuseVirtual()
    {
        if (VirtualOption is { } option)
        {
            throw InputException.Of("option.watch-virtual", ("option", option));
        }
    }

    public void RefuseReplay()
    {
        if (ReplayOption is { } option)
        {
            throw InputException.Of("option.watch-record", ("option", option), ("input", Input));
        }
    }
}

/// <summary>The options of watch, and of other commands that look at a ram as it does.</summary>
/// <param name="isPage">It opens a page.</param>
internal sealed class WatchCommandOptions(bool isPage = true)
{
    private const double FastestReplay = 1000;
    private const int UsualHttp = 8080;

    private readonly Argument<string> _input = new("PORT|INPUT|virtual")
    {
        Description = "Serial port of a logger, a recording or trace to play again, or the word virtual for a virtual ram",
    };

    private readonly SimulateOptions _ram = new();

    private readonly ServeOptions _faults = new();

    private readonly RecordInput _record = new();

    private readonly Option<int> _http = new("--http")
    {
        Description = "Port of the page",
        DefaultValueFactory = _ => UsualHttp,
    };

    private readonly Option<bool> _lan = new("--lan")
    {
        Description = "Open the page to the local network, to each device with the code that the terminal shows",
    };

    private readonly Option<double> _speed = new("--speed")
    {
        Description = "Play a record so many times faster",
        DefaultValueFactory = _ => 1,
    };

    private readonly Option<int> _baud = new("--baud")
    {
        Description = "Speed of the line to a logger",
        DefaultValueFactory = _ => SerialLine.UsualBaud,
    };

    private readonly Option<string> _folder = new("--out")
    {
        Description = "Folder for recordings made from the page",
        HelpName = "DIR",
        DefaultValueFactory = _ => "recordings",
    };

    public void AddTo(Command command)
    {
        command.Add(_input);
        if (isPage)
        {
            command.Add(_http);
            command.Add(_lan);
            command.Add(_speed);
        }

        command.Add(_record.Baseline);
        command.Add(_record.NoBaseline);
        command.Add(_folder);
        command.Add(_baud);
        command.Add(_record.Time);
        command.Add(_record.Pressure);
        command.Add(_record.Absolute);
        _ram.AddTo(command);
        _faults.AddFaultsTo(command);
    }

    public WatchRequest Read(ParseResult line)
    {
        SimulationRequest simulation = _ram.Read(line);
        int port = isPage ? line.GetValue(_http) : UsualHttp;
        if (port is < 1 or > 65535)
        {
            throw InputException.Of("option.http", ("port", port));
        }

        return new WatchRequest
        {
            Input = line.GetRequiredValue(_input),
            Simulation = simulation,
            VirtualLogger = _faults.Read(line, simulation) with { Pace = Pace.RealTime },
            Reading = _record.Reading(line),
            Baseline = line.GetValue(_record.Baseline),
            IsWithoutBaseline = line.GetValue(_record.NoBaseline),
            HttpPort = port,
            IsOpenToLan = isPage && line.GetValue(_lan),
            Speed = !isPage ? 1 : SimulateOptions.Within(_speed, line.GetValue(_speed), 0.1, FastestReplay, "times"),
            Baud = line.GetValue(_baud),
            Folder = line.GetRequiredValue(_folder),
            Length = simulation.DurationGiven ? TimeSpan.FromSeconds(simulation.DurationS) : null,
            RateHz = _ram.GivenRate(line) ?? SiteFile.Load(simulation.SitePath).Logger.SamplingRateHz,
            VirtualOption = _ram.GivenOfRam(line) ?? _faults.GivenFault(line),
            ReplayOption = CommonOptions.FirstGiven(line, _speed, _record.Time, _record.Pressure, _record.Absolute)?.Name,
        };
    }
}
