using Clackbeat.Records.Samples;
using Clackbeat.Records.Sources;
using Clackbeat.Site;

namespace Clackbeat.Records.Bursts;

/// <summary>
/// Cuts a source into bursts where samples are missing for longer than any beat, and knows each by a hash of its samples: so a
/// recording may grow, be renamed or be copied, and none of its bursts is stored twice. Samples stream past; none is kept.
/// </summary>
public sealed class BurstCutter
{
    // No ram takes so long for a beat; lone loggers sleep for minutes.
    private const double LongestPauseS = 30;

    // Two hours at 1000 samples a second: a recording without end becomes several bursts. Stored bursts are known by where they
    // were cut, so this number stays.
    private const long MostSamples = 7_200_000;

    private readonly ISampleSource _source;
    private readonly RecordStart? _start;
    private readonly List<CutBurst> _bursts = [];
    private BurstHash? _hash;
    private Sample _first;
    private Sample _last;
    private double? _sourceFirstS;
    private long _taken;
    private long _count;

    private BurstCutter(ISampleSource source, RecordStart? start) => (_source, _start) = (source, start);

    /// <summary>Finds the bursts of a source, in order.</summary>
    /// <param name="source">The source; read to its end.</param>
    /// <param name="start">When its first sample was taken; left out: as the source or its samples' calendar say.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <exception cref="InputException">Nobody says when it was recorded.</exception>
    public static IReadOnlyList<CutBurst> Find(
        ISampleSource source, RecordStart? start = null, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        var cutter = new BurstCutter(source, start);
        source.Read(cutter.Take, progress, cancellation);
        cutter.Finish();
        return cutter._bursts;
    }

    private void Take(ReadOnlySpan<Sample> samples)
    {
        foreach (ref readonly Sample sample in samples)
        {
            _sourceFirstS ??= sample.TimeS;
            if (_hash is not null && (_count >= MostSamples || sample.TimeS - _last.TimeS > LongestPauseS))
            {
                Finish();
            }

            if (_hash is null)
            {
                (_hash, _first, _count) = (new BurstHash(sample), sample, 0);
            }

            _hash.Add(sample);
            _last = sample;
            _count++;
            _taken++;
        }
    }

    private void Finish()
    {
        if (_hash is not { } hash)
        {
            return;
        }

        RecordStart start = StartOf(_first);
        string salt = _source.Identity ?? "";
        byte[] known = salt.Length > 0 ? hash.Finish(salt) : hash.Finish(start.Utc);
        _bursts.Add(new CutBurst(_taken - _count, _count, _first.TimeS, _last.TimeS - _first.TimeS, start, known));
        hash.Dispose();
        _hash = null;
    }

    private RecordStart StartOf(in Sample first)
    {
        if ((_start ?? _source.Start) is { } told)
        {
            return told with { Utc = told.Utc.AddSeconds(first.TimeS - _sourceFirstS!.Value) };
        }

        return first.UtcMicroseconds is { } utc
            ? new RecordStart(DateTimeOffset.UnixEpoch.AddTicks(utc * TimeSpan.TicksPerMicrosecond), null)
            : throw InputException.Of("table.no-start", ("file", _source.Name));
    }
}
