using System.IO.Compression;
using System.Text;
using Clackbeat.Records.Samples;
using Clackbeat.Records.Sharing;
using Clackbeat.Records.Sources;
using Clackbeat.Records.Tables;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Testing;
using Clackbeat.Words;

namespace Clackbeat.Records.Tests.Sharing;

public sealed class SharedRecordTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void An_archive_made_from_the_specification_alone_is_read()
    {
        string path = Archives.Zip(_folder["by-hand.zip"], Archives.Sound());
        Assert.True(SharedRecord.Is(path));
        var read = SharedRecord.Open(path);
        Assert.Equal([(0, 1000), (0.001, 2500), (0.002, -3000)], Samples(read));
        Assert.Equal((2, 12, "CC0-1.0"), (read.Site.Supply.HeadM, read.Site.Delivery.HeadM, read.Manifest.Licence));
        Assert.Equal(new DateTimeOffset(2026, 4, 2, 10, 0, 0, TimeSpan.Zero), read.Start!.Value.Utc);
        Assert.True(read.Faults.IsPartial);

        // 1 US gallon is 3.785411784 L (NIST SP 811).
        BucketTest bucket = Assert.Single(read.Manifest.BucketTests);
        Assert.Equal((BucketOutlet.Waste, true), (bucket.Outlet, bucket.OfThisRecord));
        Assert.Equal(2 * 3.785411784e-3 / 60, bucket.FlowM3PerS, 12);
    }

    [Fact]
    public void What_is_written_reads_back_as_the_same_samples_and_is_the_same_file_each_time()
    {
        File.WriteAllText(_folder["trace.csv"], Archives.Record);
        Assert.Equal(Write("one.zip"), Write("two.zip"));
        var read = SharedRecord.Open(_folder["one.zip"]);
        Assert.Equal([(0, 1000), (0.001, 2500), (0.002, -3000)], Samples(read));
        BucketTest bucket = Assert.Single(read.Manifest.BucketTests);
        Assert.Equal((0.0123, 61.5), (bucket.VolumeM3, bucket.TimeS));
        using ZipArchive zip = ZipFile.OpenRead(_folder["one.zip"]);
        using var licence = new StreamReader(zip.GetEntry("LICENCE.txt")!.Open());
        Assert.Equal("CC-BY-4.0\n", licence.ReadToEnd());

        byte[] Write(string name)
        {
            using (FileStream file = File.Create(_folder[name]))
            {
                SharedWriter.Write(file, TableSource.Open(_folder["trace.csv"], TraceColumns.Default), new SharedContents
                {
                    Program = "a test",
                    Say = Catalogue.English.Say,
                    SiteText = Archives.Site,
                    PlaceLeftOut = true,
                    Licence = "CC-BY-4.0",
                    BucketTests = [new BucketTest { Outlet = BucketOutlet.Delivery, VolumeM3 = 0.0123, TimeS = 61.5 }],
                });
            }

            return File.ReadAllBytes(_folder[name]);
        }
    }

    [Theory]
    [InlineData("record.csv")]
    [InlineData("site.toml")]
    public void A_missing_part_is_named(string part)
    {
        Dictionary<string, byte[]> parts = Archives.Sound();
        parts.Remove(part);
        Assert.Contains($"its part {part} is missing", Refusal(parts), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("../../etc/cron.d/evil")]
    [InlineData("..\\evil.exe")]
    [InlineData("/etc/passwd")]
    [InlineData("C:evil")]
    [InlineData("folder/record.csv")]
    public void A_part_that_leads_out_of_the_archive_is_refused(string name) =>
        Assert.Contains("leads out of the archive", Refusal([.. Archives.Sound(), new(name, [1])]), StringComparison.Ordinal);

    [Fact]
    public void Two_parts_of_one_name_are_refused() =>
        Assert.Contains("two parts", Refusal([.. Archives.Sound(), new("Record.CSV", [1])]), StringComparison.Ordinal);

    [Fact]
    public void A_record_that_unpacks_to_far_more_than_a_trace_does_is_refused_before_it_is_unpacked()
    {
        // 100 MB of one byte pack into about 100 kB.
        Dictionary<string, byte[]> parts = Archives.Sound();
        parts["record.csv"] = [.. Enumerable.Repeat((byte)'1', 100_000_000)];
        Assert.Contains("far more than any pressure trace", Refusal(parts), StringComparison.Ordinal);
    }

    [Fact]
    public void A_site_file_that_unpacks_to_megabytes_is_refused()
    {
        Dictionary<string, byte[]> parts = Archives.Sound();
        parts["site.toml"] = new byte[5_000_000];
        Assert.Contains("site.toml unpacks to 5 MB", Refusal(parts), StringComparison.Ordinal);
    }

    // The directory at the end states 29 bytes and the stream holds 100 MB: memory and disk must stay out of its reach.
    [Fact]
    public void An_archive_that_lies_about_a_length_is_stopped_there()
    {
        Dictionary<string, byte[]> parts = Archives.Sound();
        int stated = parts["record.csv"].Length;
        parts["record.csv"] = [.. Enumerable.Repeat((byte)'1', 100_000_000)];
        string path = Archives.Zip(_folder["lies.zip"], parts);
        byte[] bytes = File.ReadAllBytes(path);
        int at = bytes.AsSpan().IndexOf(BitConverter.GetBytes(100_000_000));
        Assert.True(at > 0);
        for (; at >= 0; at = bytes.AsSpan().IndexOf(BitConverter.GetBytes(100_000_000)))
        {
            BitConverter.GetBytes(stated).CopyTo(bytes, at);
        }

        File.WriteAllBytes(path, bytes);
        long before = GC.GetAllocatedBytesForCurrentThread();
        InputException refused = Assert.Throws<InputException>(() => SharedRecord.Open(path));
        Assert.Contains("record.csv", refused.Message, StringComparison.Ordinal);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 5_000_000);
    }

    [Fact]
    public void A_changed_record_is_refused()
    {
        Dictionary<string, byte[]> parts = Archives.Sound();
        parts["record.csv"][^2] = (byte)'4';
        Assert.Contains("damaged or changed", Refusal(parts), StringComparison.Ordinal);
    }

    [Fact]
    public void A_later_version_is_told_with_the_remedy()
    {
        Dictionary<string, byte[]> parts = Archives.Sound();
        parts["manifest.json"] = Encoding.UTF8.GetBytes(Archives.Manifest(parts["record.csv"], version: 2));
        string refusal = Refusal(parts);
        Assert.Contains("version 2", refusal, StringComparison.Ordinal);
        Assert.Contains("newer program", refusal, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("[1, 2]")]
    [InlineData("\0\0\0\0")]
    [InlineData("{\"format\": \"clackbeat-shared-record\", \"version\": 1, \"program\": 7}")]
    public void A_manifest_that_is_none_is_refused(string manifest)
    {
        Dictionary<string, byte[]> parts = Archives.Sound();
        parts["manifest.json"] = Encoding.UTF8.GetBytes(manifest);
        Assert.Contains("manifest", Refusal(parts), StringComparison.Ordinal);
    }

    [Fact]
    public void A_zip_inside_the_archive_is_not_unpacked()
    {
        byte[] inner = File.ReadAllBytes(Archives.Zip(_folder["inner.zip"], Archives.Sound()));
        Dictionary<string, byte[]> parts = Archives.Sound();
        parts["record.csv"] = inner;
        parts["manifest.json"] = Encoding.UTF8.GetBytes(Archives.Manifest(inner));
        Assert.Contains("packed file", Refusal(parts), StringComparison.Ordinal);
    }

    [Fact]
    public void Damage_anywhere_ends_in_a_sentence_and_never_otherwise()
    {
        byte[] sound = File.ReadAllBytes(Archives.Zip(_folder["sound.zip"], Archives.Sound()));
        var random = new Random(20);
        int refused = 0;
        for (int i = 0; i < 400; i++)
        {
            byte[] bytes = [.. sound];
            bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            int length = i % 4 == 0 ? random.Next(bytes.Length) : bytes.Length;
            File.WriteAllBytes(_folder["hurt.zip"], bytes[..length]);
            try
            {
                if (SharedRecord.Is(_folder["hurt.zip"]))
                {
                    Samples(SharedRecord.Open(_folder["hurt.zip"]));
                }
            }
            catch (InputException)
            {
                refused++;
            }
        }

        Assert.True(refused > 100, $"only {refused} of 400 were refused");
    }

    private string Refusal(IEnumerable<KeyValuePair<string, byte[]>> parts)
    {
        string path = Archives.Zip(_folder["bad.zip"], parts);
        Assert.True(SharedRecord.Is(path));
        string message = Assert.Throws<InputException>(() => SharedRecord.Open(path)).Message;
        Assert.Contains(path, message, StringComparison.Ordinal);
        return message;
    }

    private static List<(double TimeS, double PressurePa)> Samples(SharedRecord source)
    {
        var all = new List<(double TimeS, double PressurePa)>();
        source.Read(batch =>
        {
            foreach (Sample s in batch)
            {
                all.Add((s.TimeS, Math.Round(s.PressurePa, 6)));
            }
        });
        return all;
    }
}
