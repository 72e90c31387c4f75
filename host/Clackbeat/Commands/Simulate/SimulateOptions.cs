using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Twin.Files;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Commands.Simulate;

/// <summary>What was asked of the virtual ram, checked.</summary>
internal sealed record SimulationRequest
{
    public required string SitePath { get; init; }

    public required RamCharacter Character { get; init; }

    /// <summary>The saved twin to run in place of a ram made up for the site; null for none.</summary>
    public required string? TwinPath { get; init; }

    /// <summary>The ram to run.</summary>
    /// <param name="site">Its site.</param>
    public RamDesign Design(RamSite site)
    {
        RamDesign design = RamDesigner.Design(site, Character);
        return TwinPath is { } path ? design with { Ram = TwinFile.Load(path), Warnings = [] } : design;
    }

    public required SimulationOptions Options { get; init; }

    public required double DurationS { get; init; }

    /// <summary>The length was asked for, and is not the usual one.</summary>
    public required bool DurationGiven { get; init; }

    public required double? RateHz { get; init; }

    public required double? NoisePa { get; init; }

    public required double OffsetPa { get; init; }

    public required double JitterS { get; init; }

    /// <summary>The site's sensor with what the command line adds to it.</summary>
    public SensorParameters On(SensorParameters sensor) => sensor with
    {
        RateHz = RateHz ?? sensor.RateHz,
        NoisePa = NoisePa ?? sensor.NoisePa,
        OffsetPa = OffsetPa,
        JitterS = JitterS,
    };
}

/// <summary>The options that describe a virtual ram.</summary>
internal sealed class SimulateOptions
{
    private const double LongestS = 7 * 24 * 3600;

    private readonly Option<string> _site = CommonOptions.Site();

    private readonly Option<string> _condition = new("--condition")
    {
        Description = $"What is wrong with it: {string.Join(", ", ConditionCodes.All<RamCondition>())}",
        HelpName = "CODE",
        DefaultValueFactory = _ => RamCondition.Healthy.Code(),
    };

    private readonly Option<string?> _kind = new("--kind")
    {
        Description = $"Which way, for supply-starved ({string.Join(", ", ConditionCodes.All<StarvedBy>())}) "
            + $"and sensor-fault ({string.Join(", ", ConditionCodes.All<SensorFaultKind>())})",
        HelpName = "KIND",
    };

    private readonly Option<double> _severity = new("--severity")
    {
        Description = "Severity, from 0 to 1",
        DefaultValueFactory = _ => 0.5,
    };

    private readonly Option<double> _rate = new("--rate")
    {
        Description = "Samples a second",
        DefaultValueFactory = _ => 1000,
    };

    private readonly Option<string> _duration = Quantity("--for", "How long", "60s");

    private readonly Option<string> _stopAt = Quantity("--stop-at", "When a stopping condition stops the ram, or its lock nut slips", "8s");

    private readonly Option<string?> _noise = new("--noise")
    {
        Description = "Noise of the sensor, one standard deviation, such as \"0.5 kPa\"; left out: 0.025 % of its span",
        HelpName = "PRESSURE",
    };

    private readonly Option<string> _offset = Quantity("--offset", "What the sensor reads too high", "0 kPa");

    private readonly Option<string> _jitter = Quantity("--jitter", "Scatter of the sampling instants, one standard deviation", "0 ms");

    private readonly Option<int> _seed = new("--seed")
    {
        Description = "Seed of the random numbers; the same seed gives the same trace",
        DefaultValueFactory = _ => 1,
    };

    private readonly Option<bool> _lively = new("--lively")
    {
        Description = "A ram with bouncing valves and some gas in its body",
    };

    private readonly Option<string?> _twin = new("--twin")
    {
        Description = "A twin that 'clackbeat what-if --save' saved: that ram is run in place of one made up for the site",
        HelpName = "FILE.json",
    };

    private readonly Option<bool> _fromRest = new("--from-rest")
    {
        Description = "Begin with still water and a keeper who starts the ram; otherwise it is already running",
    };

    /// <summary>Adds all of them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[]
            { _site, _condition, _kind, _severity, _stopAt, _duration, _rate, _noise, _offset, _jitter, _seed, _lively, _fromRest, _twin })
        {
            command.Add(option);
        }
    }

    /// <summary>The sampling rate, where it was given [Hz].</summary>
    public double? GivenRate(ParseResult line) => CommonOptions.IsGiven(line, _rate) ? line.GetValue(_rate) : null;

    /// <summary>Name of an option that only a virtual ram has and that was given; null for none.</summary>
    public string? GivenOfRam(ParseResult line) =>
        CommonOptions.FirstGiven(line, _condition, _kind, _severity, _stopAt, _noise, _offset, _jitter, _seed, _lively, _fromRest, _twin)?.Name;

    /// <summary>Reads and checks them.</summary>
    /// <exception cref="InputException">A value is out of its range or a code is unknown.</exception>
    public SimulationRequest Read(ParseResult line) => new()
    {
        SitePath = line.GetRequiredValue(_site),
        TwinPath = line.GetValue(_twin),
        Character = line.GetValue(_lively) ? RamCharacter.Lively : RamCharacter.Smooth,
        Options = new SimulationOptions
        {
            Fault = ReadFault(line),
            Seed = line.GetValue(_seed),
            FromRest = line.GetValue(_fromRest),
        },
        DurationS = Within(_duration, ReadQuantity(line, _duration, QuantityKind.Duration), 0.1, LongestS, "s"),
        DurationGiven = CommonOptions.IsGiven(line, _duration),
        RateHz = Within(_rate, line.GetValue(_rate), 10, 100_000, "Hz"),
        NoisePa = line.GetValue(_noise) is { } text
            ? Within(_noise, Parse(_noise, text, QuantityKind.Pressure), 0, 1e6, "Pa")
            : null,
        OffsetPa = Within(_offset, ReadQuantity(line, _offset, QuantityKind.Pressure), -1e7, 1e7, "Pa"),
        JitterS = Within(_jitter, ReadQuantity(line, _jitter, QuantityKind.Duration), 0, 1, "s"),
    };

    private Fault ReadFault(ParseResult line)
    {
        RamCondition what = Code<RamCondition>(_condition, line.GetRequiredValue(_condition));
        string? way = line.GetValue(_kind);
        if (way is not null && what is not (RamCondition.SupplyStarved or RamCondition.SensorFault))
        {
            throw InputException.Of("option.kind-alone");
        }

        return new Fault
        {
            Condition = what,
            Severity = Within(_severity, line.GetValue(_severity), 0, 1, ""),
            StopsAtS = Within(_stopAt, ReadQuantity(line, _stopAt, QuantityKind.Duration), 0, LongestS, "s"),
            StarvedBy = way is not null && what == RamCondition.SupplyStarved ? Code<StarvedBy>(_kind, way) : default,
            SensorFault = way is not null && what == RamCondition.SensorFault ? Code<SensorFaultKind>(_kind, way) : default,
        };
    }

    private static TEnum Code<TEnum>(Option option, string text)
        where TEnum : struct, Enum
    {
        if (ConditionCodes.TryParse<TEnum>(text, out TEnum value))
        {
            return value;
        }

        IReadOnlyList<string> codes = ConditionCodes.All<TEnum>();
        string known = string.Join(", ", codes);
        throw Spelling.Nearest(text, codes) is { } near
            ? InputException.Of("option.not-one-of-near", ("option", option.Name), ("text", text), ("known", known), ("near", near))
            : InputException.Of("option.not-one-of", ("option", option.Name), ("text", text), ("known", known));
    }

    private static Option<string> Quantity(string name, string description, string usual) => new(name)
    {
        Description = description,
        HelpName = "QUANTITY",
        DefaultValueFactory = _ => usual,
    };

    internal static double ReadQuantity(ParseResult line, Option<string> option, QuantityKind kind) =>
        Parse(option, line.GetRequiredValue(option), kind);

    internal static double Parse(Option option, string text, QuantityKind kind) =>
        QuantityText.TryParse(kind, text, out double value, out Fact? problem)
            ? value
            : throw InputException.Of("option.wrong", ("option", option.Name), ("why", problem));

    internal static double Within(Option option, double value, double low, double high, string unit)
    {
        if (value >= low && value <= high)
        {
            return value;
        }

        string Say(double figure) => string.Create(CultureInfo.InvariantCulture, $"{figure} {unit}").TrimEnd();
        throw InputException.Of("option.out-of-range", ("option", option.Name), ("value", Say(value)), ("low", Say(low)), ("high", Say(high)));
    }
}
