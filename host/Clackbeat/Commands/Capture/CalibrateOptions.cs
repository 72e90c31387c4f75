using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>The options of <c>calibrate</c>, and the points they give.</summary>
internal sealed class CalibrateOptions
{
    private const double UsualSeconds = 5;

    public Argument<string?> Port { get; } = new("PORT")
    {
        Description = "Serial port of a logger, to read a point now",
        Arity = ArgumentArity.ZeroOrOne,
    };

    public Option<string?> Points { get; } = new("--points")
    {
        Description = "Points to use, one a line: reference,counts,supply counts, or in the order of a header line, which may name a unit: height [m],counts; a point read from the port is added to it",
        HelpName = "FILE.csv",
    };

    public Option<string?> Out { get; } = new("--out") { Description = "Calibration file to write", HelpName = "FILE.toml" };

    public Option<string?> Insist { get; } = new("--insist")
    {
        Description = "Keep a calibration that contradicts the data sheets; the reason is written into its file",
        HelpName = "REASON",
    };

    private Option<string[]> Point { get; } = new("--point")
    {
        Description = "A point: reference, counts and, where read, the supply's counts; may be repeated",
        HelpName = "REFERENCE COUNTS [SUPPLY]",
        Arity = new ArgumentArity(2, 300),
        AllowMultipleArgumentsPerToken = true,
    };

    private Option<string?> Reference { get; } = new("--reference")
    {
        Description = "What is on the sensor now: air, a column (\"2 m\"), a gauge's reading (\"4.2 bar\"), a meter's (\"2.50 V of 5.02 V\")",
        HelpName = "REFERENCE",
    };

    private Option<string?> For { get; } = Quantity("--for", "How long to average a point from the port; left out: 5 s", "TIME");

    private Option<string?> HeightError { get; } = Quantity("--height-error", "How far a column's height may be off; left out: 1 cm", "LENGTH");

    private Option<string?> Temperature { get; } = Quantity("--water-temperature", "Water in the column; left out: the site's", "TEMPERATURE");

    private Option<string?> GaugeError { get; } = Quantity("--gauge-error", "Limit of error of the pressure gauge", "PRESSURE");

    private Option<string?> MeterError { get; } = Quantity("--meter-error", "Limit of error of the meter, of its reading; left out: 0.5 %", "SHARE");

    private Option<string?> Latitude { get; } = new("--latitude")
    {
        Description = "Latitude in degrees, for local gravity; left out, columns are known to 0.35 % only",
        HelpName = "DEGREES",
    };

    private Option<string?> Altitude { get; } = Quantity("--altitude", "Altitude of the place, with --latitude; left out: 0 m", "LENGTH");

    public void AddTo(Command command)
    {
        command.Add(Port);
        foreach (Option option in new Option[]
            { Points, Point, Reference, For, Out, HeightError, Temperature, Latitude, Altitude, GaugeError, MeterError, Insist })
        {
            command.Add(option);
        }
    }

    /// <summary>How well the means of this calibration are known.</summary>
    public ReferenceMeans Means(ParseResult line, RamSite site)
    {
        ReferenceMeans usual = new();
        double temperature = Read(line, Temperature, QuantityKind.Temperature)
            ?? site.Supply.WaterTemperatureC ?? WaterProperties.DefaultTemperatureC;
        return temperature is >= 0 and <= 40
            ? new ReferenceMeans
            {
                HeightErrorM = Above(line, HeightError, QuantityKind.Length) ?? usual.HeightErrorM,
                WaterTemperatureC = temperature,
                GravityMPerS2 = Gravity(line),
                GaugeErrorPa = Above(line, GaugeError, QuantityKind.Pressure),
                MeterErrorShare = Above(line, MeterError, QuantityKind.Share) ?? usual.MeterErrorShare,
            }
            : throw InputException.Of("option.water-range", ("option", Temperature.Name));
    }

    /// <summary>The points on the command line: each reference is followed by one or two whole or broken numbers.</summary>
    public IEnumerable<CalibrationPoint> TypedPoints(ParseResult line, SignalPath path, ReferenceMeans means)
    {
        string[] words = line.GetValue(Point) ?? [];
        for (int i = 0; i < words.Length;)
        {
            string reference = words[i++];
            double counts = PointsFile.Counts(i < words.Length ? words[i++] : null, Point.Name, reference, path);
            double? supply = i < words.Length && PointsFile.IsNumber(words[i]) ? PointsFile.Counts(words[i++], Point.Name, reference, path) : null;
            yield return ReferenceText.Point(reference, p => p with { Counts = counts, SupplyCounts = supply }, path, means);
        }
    }

    /// <summary>A point read from the logger now, and added to the file of points.</summary>
    public CalibrationPoint LivePoint(
        Session session, ParseResult line, string port, SignalPath path, ReferenceMeans means, string? file)
    {
        string reference = line.GetValue(Reference) ?? throw InputException.Of("calibrate.say-reference", ("option", Reference.Name));
        // A mistyped reference must not cost the keeper a reading.
        ReferenceText.Point(reference, p => p, path, means);
        double seconds = Above(line, For, QuantityKind.Duration) ?? UsualSeconds;
        StillReading still = LiveReading.Take(session, port, seconds, path);
        CalibrationPoint point = ReferenceText.Point(
            reference,
            p => p with
            {
                Counts = still.Counts,
                CountsUncertainty = still.CountsUncertainty,
                CountsScatter = still.Scatter,
                Samples = still.Samples,
                SupplyCounts = still.SupplyCounts,
            },
            path,
            means);
        if (file is not null)
        {
            PointsFile.Append(file, point);
            session.Say(Phrases.Say("calibrate.added", ("file", file)));
        }

        return point;
    }

    /// <summary>A reference is read against a port; without one it would be lost in silence.</summary>
    public void RefuseReferenceWithoutPort(ParseResult line)
    {
        if (line.GetValue(Reference) is { } reference)
        {
            throw InputException.Of("calibrate.reference-without-port", ("option", Reference.Name), ("reference", reference), ("point", Point.Name));
        }
    }

    private double? Gravity(ParseResult line)
    {
        if (line.GetValue(Latitude) is not { } text)
        {
            return null;
        }

        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double latitude) && Math.Abs(latitude) <= 90
            ? References.GravityAt(latitude, Read(line, Altitude, QuantityKind.Length) ?? 0)
            : throw InputException.Of("option.latitude", ("option", Latitude.Name), ("text", text));
    }

    private static double? Above(ParseResult line, Option<string?> option, QuantityKind kind) => Read(line, option, kind) is { } value
        ? value > 0 ? value : throw InputException.Of("option.above-zero", ("option", option.Name))
        : null;

    private static double? Read(ParseResult line, Option<string?> option, QuantityKind kind)
    {
        if (line.GetValue(option) is not { } text)
        {
            return null;
        }

        return QuantityText.TryParse(kind, text, out double value, out Fact? problem)
            ? value
            : throw InputException.Of("option.wrong", ("option", option.Name), ("why", problem));
    }

    private static Option<string?> Quantity(string name, string description, string help) =>
        new(name) { Description = description, HelpName = help };
}
