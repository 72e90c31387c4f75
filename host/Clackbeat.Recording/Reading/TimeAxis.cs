using Clackbeat.Recording.Time;

namespace Clackbeat.Recording.Reading;

/// <summary>
/// Lays all runs of device clocks of a recording on one axis that begins with its first sample. Within a run the
/// device's own clock counts, to the microsecond; between runs the host's does, which is good to some tens of ms.
/// </summary>
internal static class TimeAxis
{
    // Where clocks contradict each other, what came later is put this much later.
    private const long LeastGap = 1_000_000;

    public static void Lay(IEnumerable<SessionFacts> sessions)
    {
        long? origin = null;
        long end = 0;
        foreach (SessionFacts session in sessions)
        {
            foreach (SegmentFacts segment in session.Segments)
            {
                long? host = Host(session, segment) is { } utc && HostCalendar.IsDate(utc) ? utc : null;
                segment.UtcShiftMicroseconds = host - segment.FirstDeviceMicroseconds;
                long start = origin is null ? 0 : host is long known ? known - origin.Value : end + LeastGap;
                start = origin is not null && start <= end ? end + LeastGap : start;
                origin ??= host ?? segment.FirstDeviceMicroseconds;
                segment.ShiftMicroseconds = start - segment.FirstDeviceMicroseconds;
                end = segment.LastDeviceMicroseconds + segment.ShiftMicroseconds;
            }
        }
    }

    // Calendar of the segment's first sample: by the arrivals of its frames, or as the logger itself was told it.
    private static long? Host(SessionFacts session, SegmentFacts segment)
    {
        if (segment.Clock is { } clock && session.Calendar.OffsetMicroseconds is long offset)
        {
            return offset + clock.HostMicroseconds(segment.FirstDeviceMicroseconds);
        }

        return session.LoggerCalendar is { } tie
            ? tie.UtcMicroseconds + segment.FirstDeviceMicroseconds - tie.DeviceMicroseconds
            : null;
    }
}
