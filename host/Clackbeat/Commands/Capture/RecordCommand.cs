using System.CommandLine;
using Clackbeat.Commands.Describe;
using Clackbeat.Frame;
using Clackbeat.Protocol.Messages;
using Clackbeat.Protocol.Samples;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>record: from a logger's line into a file that loses nothing it got.</summary>
internal static class RecordCommand
{
    public static Command Create(Session session)
    {
        var options = new RecordOptions();
        var command = new ExampleCommand(
            "record",
            "Record from a logger into a file, and go on through pulled cables and restarts until the time is up or Ctrl-C",
            "record /dev/ttyUSB0 --site my-ram.toml --out monday.cbrec --for 5min",
            "record COM3 --site my-ram.toml --out monday.cbrec --append");
        options.AddTo(command);
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line => Run(session, options.Read(line)));
        return command;
    }

    private static int Run(Session session, RecordRequest request)
    {
        IReadOnlyList<RecordingDocument> documents = SiteDocuments.Of(request.SitePath);
        var screen = new RecordScreen(session, request.OutPath);
        bool existed = File.Exists(request.OutPath);
        bool keep = existed;
        try
        {
            using var writer = new RecordingWriter(Open(request), TimeProvider.System);
            var recorder = new Recorder(
                new SerialLine(request.Port, request.Baud),
                new RecorderOptions
                {
                    Start = request.Start,
                    Length = request.Length,
                    Documents = documents,
                    Program = ProgramVersion.Number,
                },
                writer,
                TimeProvider.System)
            {
                News = screen.Tell,
                Progress = screen.Show,
            };
            RecorderSummary summary = recorder.Run(session.Stop);
            keep = true;
            return screen.Close(summary);
        }
        catch (Exception surprise) when (surprise is not (LineException or DiskException or InputException or OperationCanceledException))
        {
            // Those come before the first sample; whatever else goes wrong, what was recorded stays.
            keep = true;
            throw;
        }
        catch (LineException fault)
        {
            screen.Clear();
            session.Say(fault.Message);
            return ExitCode.Failed;
        }
        catch (DiskException fault)
        {
            screen.Clear();
            session.Say(Phrases.Say("option.record-failed", ("file", request.OutPath), ("why", fault.Message)));
            return ExitCode.Failed;
        }
        finally
        {
            screen.Clear();
            if (!keep && File.Exists(request.OutPath))
            {
                File.Delete(request.OutPath);
            }
        }
    }

    private static DiskStore Open(RecordRequest request)
    {
        string path = request.OutPath;
        if (Directory.Exists(path))
        {
            throw InputException.Of("input.is-folder", ("file", path));
        }

        NamedFiles.RefuseAsOutput(path);
        if (!File.Exists(path))
        {
            string folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
            return Directory.Exists(folder)
                ? DiskStore.Create(path)
                : throw InputException.Of("input.no-such-folder", ("file", path), ("folder", folder));
        }

        if (!request.Append)
        {
            throw InputException.Of("input.exists-append", ("file", path));
        }

        // Empty is what a recorder leaves that was killed before it met a logger.
        return new FileInfo(path).Length == 0 || BlockReader.IsRecording(path)
            ? DiskStore.Append(path)
            : throw InputException.Of("input.append-to-other", ("file", path));
    }
}

/// <summary>What was asked of record.</summary>
internal sealed record RecordRequest(
    string Port, string SitePath, string OutPath, bool Append, int Baud, TimeSpan? Length, StartCommand Start);

/// <summary>The options of record.</summary>
internal sealed class RecordOptions
{
    private const double LongestS = 366.0 * 24 * 3600;

    private readonly Argument<string> _port = new("PORT") { Description = "Serial port of the logger; 'clackbeat ports' lists them" };

    private readonly Option<string> _site = CommonOptions.Site();

    private readonly Option<string> _output = new("--out")
    {
        Description = "The recording to write",
        HelpName = "FILE",
        Required = true,
    };

    private readonly Option<string?> _length = new("--for")
    {
        Description = "How long, such as 60s or 2h; left out: until Ctrl-C",
        HelpName = "TIME",
    };

    private readonly Option<double?> _rate = new("--rate") { Description = "Samples a second; left out: the site file's, else the logger's own setting" };

    private readonly Option<int?> _supplyEvery = new("--supply-every")
    {
        Description = "Read the sensor's supply once in so many samples, 0 never; left out: the logger's own setting",
    };

    private readonly Option<int> _baud = new("--baud")
    {
        Description = "Speed of the line",
        DefaultValueFactory = _ => SerialLine.UsualBaud,
    };

    private readonly Option<bool> _append = new("--append") { Description = "Record on behind what an earlier recording holds" };

    public void AddTo(Command command)
    {
        command.Add(_port);
        foreach (Option option in new Option[] { _site, _output, _length, _append, _rate, _supplyEvery, _baud })
        {
            command.Add(option);
        }
    }

    public RecordRequest Read(ParseResult line)
    {
        string sitePath = line.GetRequiredValue(_site);
        double? rateHz = line.GetValue(_rate) ?? SiteFile.Load(sitePath).Logger.SamplingRateHz;
        if (rateHz is < 1 or > 5000)
        {
            throw InputException.Of("option.rate", ("rate", rateHz.Value));
        }

        int speed = line.GetValue(_baud);
        if (rateHz is { } wanted && wanted > 1e6 / SampleFrameWriter.LeastPeriodMicroseconds(speed, supplyEvery: 0, deliveryEvery: 0, isWide: false))
        {
            throw InputException.Of("option.rate-line", ("rate", wanted), ("baud", speed));
        }

        var start = new StartCommand { PeriodMicroseconds = rateHz is { } hz ? (uint)Math.Round(1e6 / hz) : 0 };
        if (line.GetValue(_supplyEvery) is { } every)
        {
            start.SupplyEvery = every is >= 0 and < 65535
                ? every
                : throw InputException.Of("option.supply-every", ("every", every));
        }

        return new RecordRequest(
            line.GetRequiredValue(_port),
            sitePath,
            line.GetRequiredValue(_output),
            line.GetValue(_append),
            line.GetValue(_baud),
            Length(line.GetValue(_length)),
            start);
    }

    private static TimeSpan? Length(string? text)
    {
        if (text is null)
        {
            return null;
        }

        if (!QuantityText.TryParse(QuantityKind.Duration, text, out double seconds, out Fact? problem))
        {
            throw InputException.Of("option.wrong", ("option", "--for"), ("why", problem));
        }

        return seconds is > 0 and <= LongestS
            ? TimeSpan.FromSeconds(seconds)
            : throw InputException.Of("option.for", ("text", text));
    }
}
