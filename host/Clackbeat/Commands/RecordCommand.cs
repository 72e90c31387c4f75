using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands;

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
            session.Say($"{request.OutPath}: {fault.Message} Nothing was recorded. Check the disk and its free space.");
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
            throw new InputException($"{path}: this is a folder. Name a file in it.");
        }

        if (!File.Exists(path))
        {
            string folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
            return Directory.Exists(folder)
                ? DiskStore.Create(path)
                : throw new InputException($"{path}: the folder {folder} doesn't exist. Make it first, or choose another.");
        }

        if (!request.Append)
        {
            throw new InputException(
                $"{path}: this file exists and was left as it is. Choose another name, or add --append to record on behind what is in it.");
        }

        // Empty is what a recorder leaves that was killed before it met a logger.
        return new FileInfo(path).Length == 0 || BlockReader.IsRecording(path)
            ? DiskStore.Append(path)
            : throw new InputException($"{path} is no recording, so nothing was appended to it. Choose another name.");
    }
}

/// <summary>What was asked of record.</summary>
internal sealed record RecordRequest(
    string Port, string SitePath, string OutPath, bool Append, int Baud, TimeSpan? Length, StartCommand Start);

/// <summary>The options of record.</summary>
internal sealed class RecordOptions
{
    private const double LongestS = 366.0 * 24 * 3600;

    private readonly Argument<string> port = new("PORT") { Description = "Serial port of the logger; 'clackbeat ports' lists them" };

    private readonly Option<string> site = CommonOptions.Site();

    private readonly Option<string> output = new("--out")
    {
        Description = "The recording to write",
        HelpName = "FILE",
        Required = true,
    };

    private readonly Option<string?> length = new("--for")
    {
        Description = "How long, such as 60s or 2h; left out: until Ctrl-C",
        HelpName = "TIME",
    };

    private readonly Option<double?> rate = new("--rate") { Description = "Samples a second; left out: the site file's, else the logger's own setting" };

    private readonly Option<int?> supplyEvery = new("--supply-every")
    {
        Description = "Read the sensor's supply once in so many samples, 0 never; left out: the logger's own setting",
    };

    private readonly Option<int> baud = new("--baud")
    {
        Description = "Speed of the line",
        DefaultValueFactory = _ => SerialLine.UsualBaud,
    };

    private readonly Option<bool> append = new("--append") { Description = "Record on behind what an earlier recording holds" };

    public void AddTo(Command command)
    {
        command.Add(port);
        foreach (Option option in new Option[] { site, output, length, append, rate, supplyEvery, baud })
        {
            command.Add(option);
        }
    }

    public RecordRequest Read(ParseResult line)
    {
        string sitePath = line.GetRequiredValue(site);
        double? rateHz = line.GetValue(rate) ?? SiteFile.Load(sitePath).Logger.SamplingRateHz;
        if (rateHz is < 1 or > 5000)
        {
            throw new InputException($"--rate: {rateHz} samples a second are none a logger can keep; give 1 to 5000.");
        }

        var start = new StartCommand { PeriodMicroseconds = rateHz is { } hz ? (uint)Math.Round(1e6 / hz) : 0 };
        if (line.GetValue(supplyEvery) is { } every)
        {
            start.SupplyEvery = every is >= 0 and < 65535
                ? every
                : throw new InputException($"--supply-every: {every} is out of range; give 0 to 65534.");
        }

        return new RecordRequest(
            line.GetRequiredValue(port),
            sitePath,
            line.GetRequiredValue(output),
            line.GetValue(append),
            line.GetValue(baud),
            Length(line.GetValue(length)),
            start);
    }

    private static TimeSpan? Length(string? text)
    {
        if (text is null)
        {
            return null;
        }

        if (!QuantityText.TryParse(QuantityKind.Duration, text, out double seconds, out string? problem))
        {
            throw new InputException($"--for: {problem}");
        }

        return seconds is > 0 and <= LongestS
            ? TimeSpan.FromSeconds(seconds)
            : throw new InputException($"--for: {text} is out of range; give more than nothing and at most a year.");
    }
}
