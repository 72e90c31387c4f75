using System.Buffers.Binary;
using System.Security.Cryptography;
using Clackbeat.Recording.Export;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Unattended.Bursts;

/// <summary>
/// Cuts a record into bursts where samples are missing for longer than any beat, and knows each by a hash of its samples:
/// so a recording may grow, be renamed or be copied, and none of its bursts is stored twice.
/// </summary>
/// <param name="file">Name of the input, for messages.</param>
/// <param name="start">Instant of the first sample, for an input that doesn't know it.</param>
/// <param name="take">Takes each burst.</param>
public sealed class BurstCutter(string file, DateTimeOffset? start, Action<CutBurst> take)
{
    // No ram takes so long for a beat; lone loggers sleep for minutes.
    private const double LongestPauseS = 30;

    // Two hours at 1000 samples a second: a recording without end is cut, so that memory has one.
    private const int MostSamples = 7_200_000;
    private readonly List<ExportRow> _rows = [];
    private double? _firstS;

    /// <summary>Takes the next sample.</summary>
    public void Take(ExportRow row)
    {
        _firstS ??= row.TimeS;
        if (_rows.Count >= MostSamples || (_rows.Count > 0 && row.TimeS - _rows[^1].TimeS > LongestPauseS))
        {
            Finish();
        }

        _rows.Add(row);
    }

    /// <summary>Hands the last burst out.</summary>
    public void Finish()
    {
        if (_rows.Count == 0)
        {
            return;
        }

        ExportRow first = _rows[0];
        DateTimeOffset startUtc = first.UtcMicroseconds is { } utc && start is null
            ? DateTimeOffset.UnixEpoch.AddTicks(utc * TimeSpan.TicksPerMicrosecond)
            : start?.AddSeconds(first.TimeS - _firstS!.Value)
                ?? throw new InputException($"{file}: it doesn't say when it was recorded. Give the time of its first sample with --start.");
        take(new CutBurst(startUtc, [.. _rows]));
        _rows.Clear();
    }
}

/// <summary>One burst.</summary>
public sealed class CutBurst
{
    private readonly ExportRow[] _rows;

    internal CutBurst(DateTimeOffset startUtc, ExportRow[] rows)
    {
        StartUtc = startUtc;
        _rows = rows;
        Hash = HashOf();
    }

    /// <summary>Instant of its first sample.</summary>
    public DateTimeOffset StartUtc { get; }

    /// <summary>From the first sample to the last [s].</summary>
    public double DurationS => _rows[^1].TimeS - _rows[0].TimeS;

    /// <summary>SHA-256 of its samples.</summary>
    public byte[] Hash { get; }

    /// <summary>Analyses it.</summary>
    public RamAnalysis Analyse(RamSite site, string file)
    {
        var analyser = new RamAnalyser(site);
        double first = _rows[0].TimeS;
        analyser.Add([.. _rows.Select(r => r.TimeS - first)], [.. _rows.Select(r => r.PressurePa)]);
        return analyser.Finish(file);
    }

    // Counts where there are any, since a later calibration changes pressures and not what was recorded. Real samples carry
    // noise and are never the same twice; a dead sensor's are, and there only the time tells two bursts apart.
    private byte[] HashOf()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> bytes = stackalloc byte[16];
        bool flat = true;
        foreach (ExportRow row in _rows)
        {
            BinaryPrimitives.WriteInt64LittleEndian(bytes, (long)Math.Round((row.TimeS - _rows[0].TimeS) * 1e6));
            BinaryPrimitives.WriteInt64LittleEndian(bytes[8..], row.Counts is { } counts ? counts : BitConverter.DoubleToInt64Bits(row.PressurePa));
            hash.AppendData(bytes);
            flat &= row.PressurePa == _rows[0].PressurePa;
        }

        if (flat)
        {
            BinaryPrimitives.WriteInt64LittleEndian(bytes, StartUtc.ToUnixTimeSeconds());
            hash.AppendData(bytes[..8]);
        }

        return hash.GetHashAndReset();
    }
}
