using Clackbeat.Recording.Collecting;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Recording.Reading;
using Clackbeat.Recording.Tests.Capture;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;
using Clackbeat.Words;
using Xunit.Abstractions;

namespace Clackbeat.Recording.Tests.Collecting;

[Collection(nameof(Alone))]
public sealed class CollectTests(ITestOutputHelper output) : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly ManualTime _time = new();

    private string Card => _folder["card"];

    private string Out => _folder["out"];

    public void Dispose() => _folder.Dispose();

    [Fact(Timeout = 60_000)]
    public async Task Each_burst_is_taken_once_and_bit_by_bit()
    {
        await Task.Run(() => LoneBench.FillCard(Card, 5));
        byte[][] onCard = [.. LoneBench.Files(Card).Select(f => File.ReadAllBytes(f.FullName))];
        CollectSummary first = Collect(delete: false);
        Assert.Equal((5, 0, 0), (first.Taken.Count, first.Known, first.Damaged));
        CollectSummary second = Collect(delete: false);
        Assert.Equal((0, 5), (second.Taken.Count, second.Known));
        RecordingScan[] kept = [.. Directory.EnumerateFiles(Out, "*.cbrec").Order(StringComparer.Ordinal).Select(p => RecordingScan.Of(p))];
        Assert.Equal(5, kept.Length);
        Assert.All(kept, scan => Assert.Equal(Completeness.Complete, scan.Completeness));
        for (int i = 0; i < 5; i++)
        {
            Assert.Equal(onCard[i], Verbatim(kept[i].Path));
        }
    }

    [Fact(Timeout = 60_000)]
    public async Task A_schedule_written_onto_the_card_is_kept_to_by_the_logger()
    {
        await Task.Run(() => LoneBench.FillCard(Card, 2));
        using var card = new CardSource(Card);
        var schedule = new Protocol.Messages.SetSchedule { LengthMilliseconds = 4_000, IntervalMilliseconds = 1_800_000 };
        Assert.Equal(ScheduleOutcome.Taken, card.SetSchedule(schedule, CancellationToken.None));
        Assert.Equal(ScheduleOutcome.Known, card.SetSchedule(schedule, CancellationToken.None));
        await Task.Run(() => LoneBench.FillCard(Card, 2));
        BurstFacts[] taken = [.. Collect(delete: false).Taken.OrderBy(b => b.Number)];
        Assert.Equal([2000, 2000, 4000, 4000], taken.Select(b => 1000 * (int)Math.Round(b.Samples / 1000.0)).Take(4));
    }

    [Fact(Timeout = 60_000)]
    public async Task Only_what_is_whole_and_safe_leaves_the_card()
    {
        await Task.Run(() => LoneBench.FillCard(Card, 4));
        FileInfo[] files = [.. LoneBench.Files(Card)];
        byte[] whole = File.ReadAllBytes(files[1].FullName);
        File.WriteAllBytes(files[1].FullName, whole[..(whole.Length / 2)]);
        byte[] spoilt = File.ReadAllBytes(files[2].FullName);
        spoilt[spoilt.Length / 2] ^= 0x10;
        File.WriteAllBytes(files[2].FullName, spoilt);
        CollectSummary summary = Collect(delete: true);
        Assert.Equal((4, 2, 2), (summary.Taken.Count, summary.Damaged, summary.Deleted));
        Assert.Equal([files[1].Name, files[2].Name], LoneBench.Files(Card).Select(f => f.Name));

        // The same burst with more in it is another content: it is taken too, and nothing is overwritten.
        File.WriteAllBytes(files[1].FullName, whole);
        Assert.Single(Collect(delete: true).Taken);
        Assert.Equal(5, Directory.EnumerateFiles(Out, "*.cbrec").Count());
    }

    [Fact(Timeout = 60_000)]
    public async Task What_is_no_burst_is_refused_by_name_and_the_rest_is_taken()
    {
        await Task.Run(() => LoneBench.FillCard(Card, 2));
        File.WriteAllText(Path.Combine(Card, "00000099.CBF"), "holiday pictures");
        File.WriteAllText(Path.Combine(Card, "readme.txt"), "no burst by its name");
        CollectSummary summary = Collect(delete: true);
        Assert.Equal(2, summary.Taken.Count);
        Assert.Contains("00000099.CBF", Catalogue.English.Say(Assert.Single(summary.Refused)), StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(Card, "00000099.CBF")));
    }

    [Fact(Timeout = 60_000)]
    public async Task A_collection_that_was_killed_is_taken_up_again()
    {
        await Task.Run(() => LoneBench.FillCard(Card, 2));
        Directory.CreateDirectory(Out);
        string name = "burst-7669727475616c31-00000001.cbrec.part";
        File.WriteAllText(Path.Combine(Out, name), "half a block");
        Assert.Equal(2, Collect(delete: false).Taken.Count);
        Assert.Empty(Directory.EnumerateFiles(Out, "*.part"));
    }

    [SkippableFact(Timeout = 60_000)]
    public async Task Over_the_line_the_same_bursts_come_and_known_ones_are_not_asked_for_again()
    {
        Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");
        await Task.Run(() => LoneBench.FillCard(Card, 3, lengthS: 1));
        Assert.Equal(3, Collect(delete: false).Taken.Count);
        string[] fromCard = Hashes();
        Directory.Delete(Out, recursive: true);
        using ServedLogger served = VirtualLogger.VirtualLogger.Serve(
            new PressureConverter(_ => 0, Bench.Sensor),
            new VirtualLoggerOptions { Pace = Pace.AsFastAsRead, CardFolder = Card },
            CancellationToken.None);
        await Task.Run(() =>
        {
            using var port = PortSource.Open(new SerialLine(served.PortPath!), TimeProvider.System, CancellationToken.None);
            Assert.Equal(3, Collect(delete: false, port).Taken.Count);
            Assert.Equal(fromCard, Hashes());
            CollectSummary again = Collect(delete: false, port);
            Assert.Equal((0, 3), (again.Taken.Count, again.Known));
        });
    }

    [Fact(Timeout = 60_000)]
    public async Task The_calendar_of_a_week_holds_the_truth_though_the_sleep_clock_is_off()
    {
        const int Bursts = 168;
        await Task.Run(() => LoneBench.FillCard(Card, Bursts, lengthS: 0.5, faults: new VirtualFaults { SleepError = 0.015 }));
        Collect(delete: false);
        KeptBurst[] kept = [.. BurstLibrary.Open(Out, _time, CancellationToken.None).Bursts];
        double[] trueS = [.. LoneBench.Files(Card).Select(f => TrueStartS(File.ReadAllBytes(f.FullName)))];
        DateTimeOffset visit = LoneBench.SwitchedOn.AddSeconds(trueS[^1] + 600);
        DatedBurst[] dated = [.. kept.Select(b => new DatedBurst(b.Facts, visit))];
        KnownTime on = new(kept[0].Facts.Header.Device, 1, LoneBench.SwitchedOn, 60);
        IReadOnlyList<BurstTime> times = BurstCalendar.Place(dated, [on], out bool contradicted);
        Assert.False(contradicted);
        double origin = (LoneBench.SwitchedOn - DateTimeOffset.UnixEpoch).TotalSeconds;
        for (int i = 0; i < Bursts; i++)
        {
            // The truth is known to one count of its own.
            Assert.InRange(origin + trueS[i], times[i].NotBefore - LoneBench.SecondsPerCount, times[i].NotAfter + LoneBench.SecondsPerCount);
        }

        Assert.True(times[0].UncertaintyS < 120);
        // Tied at one end only, a sleep clock good to r leaves r of the time slept; tied at both, at most half of that in the middle.
        Assert.True(times[Bursts - 1].UncertaintyS <= (0.025 * Bursts * 3600) + 600);
    }

    [Fact(Timeout = 60_000)]
    public async Task Times_that_no_sleep_clock_could_make_true_are_left_out_and_that_is_said()
    {
        await Task.Run(() => LoneBench.FillCard(Card, 24, lengthS: 0.5));
        Collect(delete: false);
        KeptBurst[] kept = [.. BurstLibrary.Open(Out, _time, CancellationToken.None).Bursts];
        DatedBurst[] dated = [.. kept.Select(b => new DatedBurst(b.Facts, LoneBench.SwitchedOn.AddHours(30)))];
        string device = kept[0].Facts.Header.Device;
        KnownTime[] known =
        [
            new(device, 1, LoneBench.SwitchedOn, 60),
            new(device, 24, LoneBench.SwitchedOn.AddHours(12), 60),
        ];
        IReadOnlyList<BurstTime> times = BurstCalendar.Place(dated, known, out bool contradicted);
        Assert.True(contradicted);
        Assert.All(times, t => Assert.Null(t.UncertaintyS));
    }

    [Fact(Timeout = 300_000)]
    public async Task A_week_of_hourly_bursts_is_taken_over_in_memory_that_does_not_grow()
    {
        // Whole minutes, as a logger records them, take a minute here; CLACKBEAT_LONG=1 asks for it.
        double lengthS = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 60 : 2;
        await Task.Run(() => LoneBench.FillCard(Card, 168, lengthS));
        var library = BurstLibrary.Open(Out, _time, CancellationToken.None);
        using CardSource card = new(Card);
        Dictionary<uint, long> heldBytes = [];
        Collector collector = new(library, "test", [])
        {
            Looked = entry => heldBytes[entry.Number] = entry.Number % 24 == 0 ? GC.GetTotalMemory(forceFullCollection: true) : 0,
        };
        Assert.Equal(168, collector.Run(card, delete: false, CancellationToken.None).Taken.Count);
        long growth = heldBytes[168] - heldBytes[24];
        long perBurst = growth / (168 - 24);
        output.WriteLine($"{perBurst} bytes a burst stay in memory");
        Assert.True(perBurst < 1024, $"{perBurst} bytes a burst stay in memory");
    }

    private static double TrueStartS(byte[] file)
    {
        FrameReader reader = new();
        List<LoggerSample> samples = [];
        reader.Read(file, samples);
        return samples[0].Counts * LoneBench.SecondsPerCount;
    }

    private static byte[] Verbatim(string path)
    {
        using FileStream file = File.OpenRead(path);
        BlockReader blocks = new(file, path);
        List<byte> bytes = [];
        while (blocks.Next() is { } block)
        {
            ReadOnlySpan<byte> payload = block.Head.Kind == BlockKind.Frames ? block.Payload.Span : [];
            while (payload.Length > 0)
            {
                int length = System.Buffers.Binary.BinaryPrimitives.ReadUInt16LittleEndian(payload[8..]);
                bytes.AddRange(payload.Slice(10, length));
                payload = payload[(10 + length)..];
            }
        }

        return [.. bytes];
    }

    private string[] Hashes() =>
        [.. BurstLibrary.Open(Out, _time, CancellationToken.None).Bursts.Select(b => b.Facts.Sha256)];

    private CollectSummary Collect(bool delete, IBurstSource? source = null)
    {
        var library = BurstLibrary.Open(Out, _time, CancellationToken.None);
        using CardSource card = new(Card);
        CollectSummary summary = new Collector(library, "test", []).Run(source ?? card, delete, CancellationToken.None);
        new BurstIndex(Out).Write(library);
        return summary;
    }
}
