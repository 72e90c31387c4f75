using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Logger;
using Clackbeat.Protocol;
using Clackbeat.Recording.Reading;
using Clackbeat.Records.Sources;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Parquet;
using Parquet.Schema;
using Xunit.Abstractions;

namespace Clackbeat.Acceptance;

/// <summary>From a serial port to figures, as a user goes.</summary>
public sealed class RecordCommandTests : IDisposable
{
    // The full number takes minutes; CLACKBEAT_LONG=1 asks for it.
    private static readonly bool Long = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1";
    private static readonly int Kills = Long ? 200 : 5;

    private readonly TemporaryFolder _folder = new();
    private readonly ITestOutputHelper _output;

    public RecordCommandTests(ITestOutputHelper output)
    {
        _output = output;
        Outcome.Of("site", "new", Site);
    }

    private string Site => _folder["ram.toml"];

    private string Recording => _folder["ram.cbrec"];

    public void Dispose() => _folder.Dispose();

    [SkippableFact]
    public async Task A_recording_an_exported_table_and_a_parquet_file_give_the_same_figures()
    {
        NeedsPorts();
        using ServedLogger logger = Ram();
        var record = Outcome.Of("record", logger.PortPath!, "--site", Site, "--out", Recording, "--for", "30s");
        Assert.True(record.ExitCode == 0, record.Error);
        Assert.Contains("nothing", record.Out, StringComparison.Ordinal);
        JsonNode recorded = Analyse(Recording);
        Assert.Equal("complete", (string?)recorded["input"]!["completeness"]);
        Assert.InRange((int)recorded["beats"]!["count"]!, 10, 100);

        Assert.Equal(0, Outcome.Of("export", Recording, "--out", _folder["ram.csv"]).ExitCode);
        JsonNode exported = Analyse(_folder["ram.csv"]);
        recorded["input"]!.AsObject().Remove("file");
        exported["input"]!.AsObject().Remove("file");
        Assert.Equal(recorded.ToJsonString(), exported.ToJsonString());
        Assert.StartsWith("t_s,p_kPa,utc,counts,supply_counts,gap_s\n", File.ReadAllText(_folder["ram.csv"]), StringComparison.Ordinal);

        Assert.Equal(0, Outcome.Of("export", Recording, "--out", _folder["ram.parquet"]).ExitCode);
        await AssertSameRows(_folder["ram.csv"], _folder["ram.parquet"]);
    }

    [SkippableFact]
    public void A_recording_whatever_its_name_is_known_by_what_is_in_it()
    {
        NeedsPorts();
        using ServedLogger logger = Ram();
        string odd = _folder["monday.csv"];
        Assert.Equal(0, Outcome.Of("record", logger.PortPath!, "--site", Site, "--out", odd, "--for", "12s").ExitCode);
        Assert.Equal(0, Outcome.Of("analyse", odd, "--site", Site, "--json").ExitCode);
    }

    [SkippableFact]
    public void A_file_that_exists_is_never_recorded_over()
    {
        NeedsPorts();
        using ServedLogger logger = Ram();
        File.WriteAllText(Recording, "my notes");
        var taken = Outcome.Of("record", logger.PortPath!, "--site", Site, "--out", Recording);
        Assert.Equal(2, taken.ExitCode);
        var appended = Outcome.Of("record", logger.PortPath!, "--site", Site, "--out", Recording, "--append");
        Assert.Equal(2, appended.ExitCode);
        Assert.Equal("my notes", File.ReadAllText(Recording));
    }

    [SkippableFact]
    public void A_missing_port_leaves_no_file_behind_and_says_what_to_do()
    {
        Skip.If(OperatingSystem.IsWindows(), "ports have other names on Windows");
        var missing = Outcome.Of("record", _folder["ttyUSB9"], "--site", Site, "--out", Recording);
        Assert.Equal(1, missing.ExitCode);
        Assert.Contains("clackbeat ports", missing.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Recording));
    }

    [Fact]
    public void A_missing_folder_is_named_before_any_port_is_asked()
    {
        var missing = Outcome.Of("record", _folder["ttyUSB9"], "--site", Site, "--out", _folder["none/ram.cbrec"]);
        Assert.Equal(2, missing.ExitCode);
        Assert.Contains("Make it first", missing.Error, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Ports_says_which_port_answers_as_a_logger()
    {
        NeedsPorts();
        using ServedLogger logger = Ram();
        using var silent = PseudoTerminal.Open(dropWhenFull: true, CancellationToken.None);
        JsonArray ports = JsonNode.Parse(Outcome.Of("ports", logger.PortPath!, silent.PortPath, "--json").Out)!["ports"]!.AsArray();
        JsonNode there = ports.Single(p => (string?)p!["port"] == logger.PortPath)!;
        Assert.Equal(("7669727475616c31", "idle"), ((string?)there["logger"], (string?)there["doing"]));
        Assert.Equal("no answer", (string?)ports.Single(p => (string?)p!["port"] == silent.PortPath)!["problem"]);
    }

    [SkippableFact]
    public void Bench_says_what_the_board_can_do_and_every_later_recording_carries_it()
    {
        NeedsPorts();
        using ServedLogger logger = Ram();
        JsonNode bench = JsonNode.Parse(Outcome.Of("bench", logger.PortPath!, "--json").Out)!;

        // The virtual board takes 150 µs for a conversion, and loses nothing at its 1 kHz.
        Assert.Equal(150e-6, (double)bench["conversion_s"]!, 1e-6);
        Assert.Equal((0, 1e-3), ((int)bench["lost"]!, (double)bench["period_s"]!));
        Assert.Contains("keeps up", Outcome.Of("bench", logger.PortPath!).Out, StringComparison.Ordinal);
        Outcome.Of("record", logger.PortPath!, "--site", Site, "--out", _folder["benched.cbrec"], "--for", "2s");
        Assert.InRange(RecordingScan.Of(_folder["benched.cbrec"]).Sessions[0].Bench!.ConversionNanoseconds, 149_000u, 151_000u);
        Assert.Equal(150e-6, RecordingSource.Open(_folder["benched.cbrec"], SiteFile.Load(Site)).Board!.ConversionS, 1e-6);
    }

    [SkippableFact]
    public void Killed_at_any_moment_and_begun_again_a_recording_keeps_all_but_its_last_second()
    {
        NeedsPorts();
        Random random = new(11);
        Seconds source = new();
        using ServedLogger logger = VirtualLogger.VirtualLogger.Serve(
            source, new VirtualLoggerOptions { Pace = Pace.RealTime }, CancellationToken.None);
        List<(double KilledS, int Sessions)> kills = [];
        for (int i = 0; i < Kills; i++)
        {
            using Process record = Process.Start(new ProcessStartInfo(
                Repository.Program, ["record", logger.PortPath!, "--site", Site, "--out", Recording, "--append"])
            {
                RedirectStandardError = true,
                RedirectStandardOutput = true,
            })!;
            if (i % 4 > 0)
            {
                // Most kills shall hit it at work, however long this machine takes to start it.
                while (record.StandardError.ReadLine() is { } line && !line.StartsWith("Recording", StringComparison.Ordinal))
                {
                }
            }

            Thread.Sleep(random.Next(2000));
            record.Kill();
            record.WaitForExit();
            kills.Add((source.NowS, File.Exists(Recording) && new FileInfo(Recording).Length > 0
                ? RecordingScan.Of(Recording).Sessions.Count
                : 0));
        }

        AssertNothingAcknowledgedIsMissing(kills);
    }

    [SkippableFact]
    public void At_2000_samples_a_second_on_two_channels_it_takes_under_3_percent_of_a_core()
    {
        NeedsPorts();
        Skip.IfNot(Long, "takes a minute of measuring; CLACKBEAT_LONG=1 asks for it");
        using ServedLogger logger = VirtualLogger.VirtualLogger.Serve(
            new Seconds(),
            new VirtualLoggerOptions { Pace = Pace.RealTime, Settings = new LoggerSettings { Baud = 921_600 } },
            CancellationToken.None);
        using Process record = Process.Start(new ProcessStartInfo(
            Repository.Program,
            ["record", logger.PortPath!, "--site", Site, "--out", Recording, "--rate", "2000", "--supply-every", "1"]))!;
        try
        {
            // The start compiles code; what counts is the running.
            Thread.Sleep(6000);
            TimeSpan before = Used(record);
            Thread.Sleep(30_000);
            double share = (Used(record) - before).TotalSeconds / 30;
            _output.WriteLine($"{100 * share:0.00} % of a core");
            Assert.InRange(share, 0.0001, 0.03);
        }
        finally
        {
            record.Kill();
            record.WaitForExit();
        }

        Assert.True(RecordingScan.Of(Recording).Samples > 60_000);
    }

    private static TimeSpan Used(Process process)
    {
        process.Refresh();
        return process.TotalProcessorTime;
    }

    // The converter knows the device's time at which a process was killed.
    private void AssertNothingAcknowledgedIsMissing(List<(double KilledS, int Sessions)> kills)
    {
        var scan = RecordingScan.Of(Recording);
        Assert.Equal(0, scan.DamagedBytes);
        Assert.Equal(0, scan.MissingBlocks);
        Assert.Equal(0, scan.MissingSamples);
        Assert.True(scan.Sessions.Count >= Kills / 2, $"{scan.Sessions.Count} sessions");
        int before = 0;
        List<double> tailsS = [];
        foreach ((double killedS, int sessions) in kills)
        {
            if (sessions > before && scan.Sessions[sessions - 1].Segments.LastOrDefault() is { } run)
            {
                tailsS.Add(killedS - (run.LastDeviceMicroseconds / 1e6));
            }

            before = sessions;
        }

        // The format promises a second; the way over the line takes a little more, and a machine that does much else can
        // make a process wait.
        tailsS.Sort();
        _output.WriteLine($"{Kills} kills, {scan.Sessions.Count} sessions; not yet written: {tailsS[0]:0.00} s at least, {tailsS[tailsS.Count / 2]:0.00} s in the middle, {tailsS[^1]:0.00} s at most");
        Assert.InRange(tailsS[0], -0.2, 1.2);
        Assert.InRange(tailsS[tailsS.Count / 2], -0.2, 1.6);
        Assert.InRange(tailsS[^1], -0.2, 5);
        SamplePass.Read(scan, samples =>
        {
            foreach (RecordedSample sample in samples)
            {
                Assert.InRange(sample.Counts, 1, 4095);
            }
        });
    }

    private static void NeedsPorts() => Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");

    private ServedLogger Ram()
    {
        RamSite site = SiteFile.Load(Site);
        RamDesign design = RamDesigner.Design(site);
        double[] pressuresPa = [.. new RamSimulation(design.Ram, design.Sensor).Samples(45).Select(s => s.PressurePa)];
        return VirtualLogger.VirtualLogger.Serve(
            PressureConverter.FromSamples(pressuresPa, design.Sensor.RateHz, new SensorModel { Conversion = SiteSensing.ConversionOf(site) }),
            new VirtualLoggerOptions { Pace = Pace.AsFastAsRead },
            CancellationToken.None);
    }

    private JsonNode Analyse(string input)
    {
        var analysis = Outcome.Of("analyse", input, "--site", Site, "--json");
        Assert.True(analysis.ExitCode == 0, analysis.Error);
        return JsonNode.Parse(analysis.Out)!;
    }

    private static async Task AssertSameRows(string csv, string parquet)
    {
        using FileStream file = File.OpenRead(parquet);
        await using ParquetReader reader = await Parquet.ParquetReader.CreateAsync(file);
        string[][] rows = [.. File.ReadLines(csv).Skip(1).Select(line => line.Split(','))];
        DataField[] fields = reader.Schema.GetDataFields();
        Assert.Equal(["t_s", "p_kPa", "utc", "counts", "supply_counts", "gap_s"], fields.Select(f => f.Name));
        int at = 0;
        for (int g = 0; g < reader.RowGroupCount; g++)
        {
            using ParquetRowGroupReader group = reader.OpenRowGroupReader(g);
            Assert.Equal("kPa (gauge)", group.GetCustomMetadata(fields[1])["unit"]);
            double[] times = new double[group.RowCount];
            double[] pressures = new double[group.RowCount];
            await group.ReadAsync<double>(fields[0], times);
            await group.ReadAsync<double>(fields[1], pressures);
            for (int i = 0; i < times.Length; i++, at++)
            {
                Assert.Equal(rows[at][0], times[i].ToString("R", CultureInfo.InvariantCulture));
                Assert.Equal(rows[at][1], pressures[i].ToString("R", CultureInfo.InvariantCulture));
            }
        }

        Assert.Equal(rows.Length, at);
    }

    private sealed class Seconds : IConverterSource
    {
        public double NowS { get; private set; }

        public bool TryRead(int channel, double timeS, out int counts)
        {
            NowS = timeS;
            counts = channel == Channels.Pressure ? 1 + ((int)timeS % 4000) : 3151;
            return true;
        }
    }
}
