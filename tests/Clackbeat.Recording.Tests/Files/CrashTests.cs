using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Xunit.Abstractions;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>
/// The power goes at every single moment of a recording, and the disk does what it likes with what was not flushed: what was
/// acknowledged is there sample by sample, nothing is there that was never written, and recording goes on behind it. A short
/// recording and a few fates a moment, unless CLACKBEAT_LONG=1 asks for minutes and many.
/// </summary>
public sealed class CrashTests(ITestOutputHelper output) : IDisposable
{
    private static readonly bool Long = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1";
    private static readonly int Seeds = Long ? 20 : 3;
    private static readonly ScriptedRecording Recording = new(Long ? 2 : 0.25);

    private readonly TemporaryFolder _folder = new();
    private int _crashes;
    private int _holes;
    private long _saved;

    private string Path => _folder["crashed.cbrec"];

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void At_every_moment_each_unflushed_sector_alone_may_be_lost_or_spoilt()
    {
        Random random = new(1);
        for (int moment = 0; moment < Recording.Disk.Moments; moment++)
        {
            for (int sector = 0; sector < Recording.Disk.Unflushed(moment).Count; sector++)
            {
                foreach (Fate fate in (Fate[])[Fate.Zeros, Fate.Trash])
                {
                    Check(moment, Recording.Disk.Found(moment, s => s == sector ? fate : Fate.Kept, random));
                    Check(moment, Recording.Disk.Found(moment, s => s == sector ? Fate.Kept : fate, random));
                }
            }
        }

        Tell();
        Assert.True(_saved > 0, "good frames of spoilt blocks were saved");
    }

    [Fact]
    public void At_every_moment_any_of_the_unflushed_sectors_may_be_lost_or_spoilt_and_the_file_be_shorter()
    {
        for (int moment = 0; moment < Recording.Disk.Moments; moment++)
        {
            Check(moment, Recording.Disk.Found(moment, _ => Fate.Kept, new Random(0)));
            Check(moment, Recording.Disk.Found(moment, _ => Fate.Zeros, new Random(0)));
            Check(moment, Recording.Disk.Found(moment, _ => Fate.Kept, new Random(0), grown: 0));
            for (int seed = 0; seed < Seeds; seed++)
            {
                Random random = new((moment * 1000) + seed);
                double grown = random.Next(2) == 0 ? 1 : random.NextDouble();
                Check(moment, Recording.Disk.Found(moment, _ => random.Next(2) == 0 ? Fate.Kept : (Fate)random.Next(5), random, grown), goOn: seed % 3 == 0);
            }
        }

        Tell();
        Assert.True(_holes > 0, "something in the middle was spoilt");
    }

    private void Tell() => output.WriteLine(
        $"{Recording.Samples.Count} samples, {Recording.Disk.Moments} moments, {_crashes} crashes, {_holes} with a hole before what was found, {_saved} samples saved from spoilt blocks");

    private void Check(int moment, byte[] found, bool goOn = false)
    {
        _crashes++;
        File.WriteAllBytes(Path, found);
        int[] present = Read(out RecordingScan scan);
        long durable = Recording.DurableSamples(moment);
        Assert.True(present.Length >= durable, $"moment {moment}: {present.Length} of {durable}");
        Assert.Equal(durable, present.TakeWhile((sample, i) => sample == i).LongCount(sample => sample < durable));
        Assert.True(Texts(scan) >= Recording.DurableTexts(moment), $"moment {moment}: texts");
        // The end is the last block; written and not yet flushed, it may be there or not.
        int toTheEnd = Recording.Disk.Moments - 1 - moment;
        Assert.True(toTheEnd != 0 || scan.Completeness == Completeness.Complete, "whole at its end");
        Assert.True(toTheEnd < 2 || scan.Completeness != Completeness.Complete, $"moment {moment}: told as whole");

        // A hole is told as one: blocks are missing.
        bool hole = present.Length > 0 && present[^1] != present.Length - 1;
        _holes += hole ? 1 : 0;
        _saved += scan.SavedSamples;
        Assert.True(!hole || (scan.MissingBlocks > 0 && scan.Completeness == Completeness.Damaged), $"moment {moment}: the hole is not told");
        if (goOn)
        {
            GoOn(present, found);
        }
    }

    // Numbers of the samples that are read: each is one that was written, with its counts, in order and once.
    private int[] Read(out RecordingScan scan)
    {
        scan = RecordingScan.Of(Path);
        SegmentFacts[] runs = [.. scan.Sessions.Where(s => s.Header?.Place == "test").SelectMany(s => s.Segments)];
        long[] ends = new long[runs.Length];
        for (int i = 0; i < runs.Length; i++)
        {
            ends[i] = runs[i].Samples + (i > 0 ? ends[i - 1] : 0);
        }

        List<int> numbers = [];
        int run = 0;
        SamplePass.Read(scan, batch =>
        {
            foreach (RecordedSample sample in batch)
            {
                while (numbers.Count >= ends[run])
                {
                    run++;
                }

                numbers.Add(NumberOf(sample.TimeMicroseconds - runs[run].ShiftMicroseconds, sample.Counts, numbers.Count == 0 ? -1 : numbers[^1]));
            }
        });
        return [.. numbers];
    }

    private static int NumberOf(long device, int counts, int after)
    {
        int number = Recording.Samples.FindIndex(after + 1, s => s.Device == device);
        Assert.True(number >= 0, $"a sample at {device} µs that was never written, or twice");
        Assert.Equal(Recording.Samples[number].Counts, counts);
        return number;
    }

    private static int Texts(RecordingScan scan) => scan.Sessions.SelectMany(s => s.Documents).Count(d => d.Role == DocumentRole.Mark);

    // A recorder that is started again appends; it changes nothing of what is there, and its own is whole.
    private void GoOn(int[] before, byte[] found)
    {
        using (RecordingWriter writer = new(DiskStore.Append(Path), new ManualTime()))
        {
            writer.Begin(ScriptedRecording.Header() with { Place = "appended" }, []);
            writer.AddBytes(Recording.FirstFrames, 0);
            writer.End(EndReason.Asked, 0);
        }

        Assert.True(File.ReadAllBytes(Path).AsSpan().StartsWith(found));
        var scan = RecordingScan.Of(Path);
        Assert.NotNull(scan.Sessions[^1].End);
        Assert.Equal(before.Length + ScriptedRecording.FirstSamples, scan.Samples);
        Assert.Equal(ScriptedRecording.FirstSamples, scan.Sessions[^1].Samples);
    }
}
