using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Logger;
using Clackbeat.Protocol;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Commands.Simulate;

/// <summary>The options of a served logger: what befalls it, and whether it works alone.</summary>
internal sealed class ServeOptions
{
    private readonly Option<string?> _overruns = Time("--overruns", "Let the logger's program stand still for 20 ms every so often");

    private readonly Option<double> _lineNoise = new("--line-noise")
    {
        Description = "Share of the frames with noise on the line before them, 0 to 1",
    };

    private readonly Option<double> _flips = new("--flips") { Description = "Share of the frames with a flipped bit, 0 to 1" };

    private readonly Option<double> _drift = new("--drift")
    {
        Description = "Error of the logger's clock in parts per million; above 0 runs fast",
    };

    private readonly Option<string?> _cut = Time("--cut", "Pull the cable for good after this time");

    private readonly Option<string?> _reboot = Time("--reboot", "Let the logger lose its power for a moment in mid-frame after this time");

    private readonly Option<string?> _card = new("--card")
    {
        Description = "Folder used as a card; the logger then works alone and records bursts on it while no host is connected",
        HelpName = "DIR",
    };

    /// <summary>Asks for a logger on a port instead of a trace.</summary>
    public Option<bool> Serve { get; } = new("--serve")
    {
        Description = "Offer the ram as a logger on a serial port of its own, whose path is the first line printed, until Ctrl-C",
    };

    private IEnumerable<Option> Others => [_overruns, _lineNoise, _flips, _drift, _cut, _reboot, _card];

    /// <summary>Adds all of them to a command.</summary>
    public void AddTo(Command command)
    {
        command.Add(Serve);
        foreach (Option option in Others)
        {
            command.Add(option);
        }
    }

    /// <summary>Adds those that tell what befalls a logger which is virtual anyway.</summary>
    public void AddFaultsTo(Command command)
    {
        foreach (Option option in Others.Where(o => o != _card))
        {
            command.Add(option);
        }
    }

    /// <summary>Name of one that was given; null for none.</summary>
    public string? GivenFault(ParseResult line) => CommonOptions.FirstGiven(line, Others)?.Name;

    /// <summary>Refuses options that only a served logger has.</summary>
    public void RefuseAll(ParseResult line)
    {
        if (GivenFault(line) is { } name)
        {
            throw InputException.Of("option.needs-serve", ("option", name));
        }
    }

    /// <summary>Reads and checks them.</summary>
    /// <exception cref="InputException">A value is out of its range.</exception>
    public VirtualLoggerOptions Read(ParseResult line, SimulationRequest request) => new()
    {
        Settings = new LoggerSettings
        {
            PeriodMicroseconds = PeriodOf(request.RateHz),
            WorksAlone = line.GetValue(_card) is not null,
        },
        Faults = new VirtualFaults
        {
            JitterMicroseconds = request.JitterS * 1e6,
            StallEveryS = Seconds(line, _overruns),
            StallLengthS = 0.02,
            NoiseShare = SimulateOptions.Within(_lineNoise, line.GetValue(_lineNoise), 0, 1, ""),
            FlippedShare = SimulateOptions.Within(_flips, line.GetValue(_flips), 0, 1, ""),
            ClockDriftPpm = SimulateOptions.Within(_drift, line.GetValue(_drift), -100_000, 100_000, "ppm"),
            CutAtS = Seconds(line, _cut),
            RebootAtS = Seconds(line, _reboot),
            Seed = request.Options.Seed,
        },
        CardFolder = line.GetValue(_card),
    };

    private static int PeriodOf(double? rateHz)
    {
        double periodUs = 1e6 / (rateHz ?? 1000);
        if (periodUs >= ProtocolVersion.MinPeriodMicroseconds && periodUs <= ProtocolVersion.MaxPeriodMicroseconds)
        {
            return (int)Math.Round(periodUs);
        }

        throw InputException.Of("option.serve-rate", ("low", 1e6 / ProtocolVersion.MaxPeriodMicroseconds), ("high", 1e6 / ProtocolVersion.MinPeriodMicroseconds));
    }

    private static double? Seconds(ParseResult line, Option<string?> option) => line.GetValue(option) is { } text
        ? SimulateOptions.Within(option, SimulateOptions.Parse(option, text, QuantityKind.Duration), 0.01, 1e7, "s")
        : null;

    private static Option<string?> Time(string name, string description) => new(name) { Description = description, HelpName = "TIME" };
}
