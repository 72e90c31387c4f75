using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Signal.Traces;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.VirtualLogger;

namespace Clackbeat.Commands;

/// <summary>What was asked of watch.</summary>
internal sealed record WatchRequest
{
    public required string Input { get; init; }

    public required SimulationRequest Simulation { get; init; }

    public required VirtualLoggerOptions VirtualLogger { get; init; }

    public required TraceColumns Columns { get; init; }

    public required string? Baseline { get; init; }

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

    public void RefuseVirtual() => Refuse(VirtualOption, "a virtual ram. Watch 'virtual'");

    public void RefuseReplay() => Refuse(ReplayOption, $"a finished record, and {Input} is none. Name a file that is there");

    private static void Refuse(string? option, string of)
    {
        if (option is not null)
        {
            throw new InputException($"{option} tells of {of}, or leave it out.");
        }
    }
}

/// <summary>The options of watch.</summary>
internal sealed class WatchCommandOptions
{
    private const double FastestReplay = 1000;

    private readonly Argument<string> input = new("PORT|INPUT|virtual")
    {
        Description = "Serial port of a logger, a recording or trace to play again, or the word virtual for a virtual ram",
    };

    private readonly SimulateOptions ram = new();

    private readonly ServeOptions faults = new();

    private readonly RecordInput record = new();

    private readonly Option<int> http = new("--http")
    {
        Description = "Port of the page",
        DefaultValueFactory = _ => 8080,
    };

    private readonly Option<bool> lan = new("--lan")
    {
        Description = "Open the page to the local network, to each device that brings the code the terminal shows",
    };

    private readonly Option<double> speed = new("--speed")
    {
        Description = "Play a record so many times faster",
        DefaultValueFactory = _ => 1,
    };

    private readonly Option<int> baud = new("--baud")
    {
        Description = "Speed of the line to a logger",
        DefaultValueFactory = _ => SerialLine.UsualBaud,
    };

    private readonly Option<string> folder = new("--out")
    {
        Description = "Folder for recordings made from the page",
        HelpName = "DIR",
        DefaultValueFactory = _ => "recordings",
    };

    public void AddTo(Command command)
    {
        command.Add(input);
        command.Add(http);
        command.Add(lan);
        command.Add(record.Baseline);
        command.Add(folder);
        command.Add(speed);
        command.Add(baud);
        command.Add(record.Time);
        command.Add(record.Pressure);
        ram.AddTo(command);
        faults.AddFaultsTo(command);
    }

    public WatchRequest Read(ParseResult line)
    {
        SimulationRequest simulation = ram.Read(line);
        int port = line.GetValue(http);
        if (port is < 1 or > 65535)
        {
            throw new InputException($"--http: {port} is no port; give 1 to 65535, such as 8080.");
        }

        return new WatchRequest
        {
            Input = line.GetRequiredValue(input),
            Simulation = simulation,
            VirtualLogger = faults.Read(line, simulation) with { Pace = Pace.RealTime },
            Columns = TraceColumns.Parse(line.GetValue(record.Time), line.GetValue(record.Pressure)),
            Baseline = line.GetValue(record.Baseline),
            HttpPort = port,
            IsOpenToLan = line.GetValue(lan),
            Speed = SimulateOptions.Within(speed, line.GetValue(speed), 0.1, FastestReplay, "times"),
            Baud = line.GetValue(baud),
            Folder = line.GetRequiredValue(folder),
            Length = simulation.DurationGiven ? TimeSpan.FromSeconds(simulation.DurationS) : null,
            RateHz = ram.GivenRate(line) ?? SiteFile.Load(simulation.SitePath).Logger.SamplingRateHz,
            VirtualOption = ram.GivenOfRam(line) ?? faults.GivenFault(line),
            ReplayOption = CommonOptions.FirstGiven(line, speed, record.Time, record.Pressure)?.Name,
        };
    }
}
