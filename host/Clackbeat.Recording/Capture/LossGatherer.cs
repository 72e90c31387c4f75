using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;

namespace Clackbeat.Recording.Capture;

/// <summary>Joins the small losses of one cause that come within a second into one record (recording-format §6).</summary>
internal sealed class LossGatherer
{
    private const long Within = 1_000_000;

    private readonly Dictionary<LossCause, LossRecord> _open = [];

    /// <summary>Takes a gap that the frames show, noticed at a host time [µs since the session began].</summary>
    public void Add(StreamGap gap, long elapsed) => Join(new LossRecord
    {
        Cause = gap.Cause,
        FromElapsedMicroseconds = elapsed,
        ToElapsedMicroseconds = elapsed,
        FromDeviceMicroseconds = gap.FromMicroseconds,
        ToDeviceMicroseconds = gap.ToMicroseconds,
        Samples = gap.Points,
    });

    /// <summary>Takes bytes that made no sense, or had to be thrown away.</summary>
    public void Add(LossCause cause, long bytes, long elapsed) => Join(new LossRecord
    {
        Cause = cause,
        FromElapsedMicroseconds = elapsed,
        ToElapsedMicroseconds = elapsed,
        Samples = 0,
        Bytes = bytes,
    });

    /// <summary>The records that nothing was added to for a second, or all of them.</summary>
    public List<LossRecord> Take(long elapsed, bool all)
    {
        List<LossRecord> ripe = [.. _open.Values.Where(r => all || elapsed - r.FromElapsedMicroseconds >= Within)];
        ripe.ForEach(r => _open.Remove(r.Cause));
        return ripe;
    }

    private void Join(LossRecord loss)
    {
        _open[loss.Cause] = !_open.TryGetValue(loss.Cause, out LossRecord? before) ? loss : before with
        {
            ToElapsedMicroseconds = loss.ToElapsedMicroseconds,
            FromDeviceMicroseconds = before.FromDeviceMicroseconds >= 0
                ? before.FromDeviceMicroseconds
                : loss.FromDeviceMicroseconds,
            ToDeviceMicroseconds = Math.Max(before.ToDeviceMicroseconds, loss.ToDeviceMicroseconds),
            Samples = before.Samples + loss.Samples,
            Bytes = before.Bytes + loss.Bytes,
        };
    }
}
