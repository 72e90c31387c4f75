using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Samples;

/// <summary>
/// Reads the entries of a samples frame in order (SPEC §6). It works on the body it is given, which must stay as it
/// is meanwhile. Nothing is allocated after construction.
/// </summary>
public sealed class SampleFrameReader
{
    private const int FirstEntry = 3;

    private const int SampleLength = 3;
    private const int WideSampleLength = 4;

    private byte[] _body = [];
    private int _sampleLength = SampleLength;
    private int _length;
    private int _at;

    /// <summary>Number of the frame since the device's start, modulo 65536.</summary>
    public int Sequence { get; private set; }

    /// <summary>Time of the frame's first grid point [µs of device time].</summary>
    public long BaseMicroseconds { get; private set; }

    /// <summary>The grid's period [µs].</summary>
    public int PeriodMicroseconds { get; private set; }

    /// <summary>The grid point behind the entries read so far [µs]; at the end, where the next frame should begin.</summary>
    public long NextPointMicroseconds { get; private set; }

    /// <summary>What the current entry is.</summary>
    public EntryKind Kind { get; private set; }

    /// <summary>True time of the current sample, or of the sample before the current reading [µs of device time].</summary>
    public long TimeMicroseconds { get; private set; }

    /// <summary>Counts of the current sample or reading.</summary>
    public int Counts { get; private set; }

    /// <summary>Channel of the current sample or reading.</summary>
    public int Channel { get; private set; }

    /// <summary>Grid points of the current skip.</summary>
    public int Points { get; private set; }

    /// <summary>Reason of the current skip.</summary>
    public int Reason { get; private set; }

    /// <summary>Takes a body; false when it is no whole samples frame.</summary>
    public bool TryOpen(byte[] body, int length)
    {
        if (length < FirstEntry || (body[0] != Kinds.Samples && body[0] != Kinds.WideSamples))
        {
            return false;
        }

        _sampleLength = body[0] == Kinds.WideSamples ? WideSampleLength : SampleLength;
        _body = body;
        _length = length;
        Sequence = Fields.U16(body, 1);
        BaseMicroseconds = -1;
        PeriodMicroseconds = 0;
        if (!TryFindGrid() || BaseMicroseconds < 0 || PeriodMicroseconds == 0)
        {
            return false;
        }

        _at = FirstEntry;
        NextPointMicroseconds = BaseMicroseconds;
        TimeMicroseconds = BaseMicroseconds;
        return true;
    }

    /// <summary>Goes to the next sample, reading or skip; false at the end.</summary>
    public bool Next()
    {
        while (_at < _length)
        {
            int first = _body[_at];
            if (first >= 0x80)
            {
                TakeSample();
                return true;
            }

            int at = _at + 1;
            _at = at + (first >> 4);
            if (TakeTagged(first, at))
            {
                return true;
            }
        }

        return false;
    }

    // One pass over the lengths: it finds base and period, and makes sure that no entry runs past the end.
    private bool TryFindGrid()
    {
        int at = FirstEntry;
        while (at < _length)
        {
            int first = _body[at];
            int end = first >= 0x80 ? at + _sampleLength : at + 1 + (first >> 4);
            if (end > _length || first == 0)
            {
                return false;
            }

            if (first == EntryTags.Base)
            {
                BaseMicroseconds = Sevens(at + 1, 4) + ((long)Sevens(at + 5, 3) << 28);
            }
            else if (first == EntryTags.Period)
            {
                PeriodMicroseconds = Sevens(at + 1, 3);
            }

            at = end;
        }

        return true;
    }

    private void TakeSample()
    {
        byte[] body = _body;
        int at = _at;
        int bits = (body[at] & 0x7F) | ((body[at + 1] & 0x7F) << 7) | ((body[at + 2] & 0x7F) << 14);
        _at = at + _sampleLength;
        if (_sampleLength == WideSampleLength)
        {
            bits |= (body[at + 3] & 0x7F) << 21;
            TakePoint(bits & 0xFFFF, (bits >> 16) - EntryTags.WideNearSpan);
            return;
        }

        TakePoint(bits & 0xFFF, (bits >> 12) - EntryTags.NearSpan);
    }

    private void TakePoint(int counts, int deviation)
    {
        Kind = EntryKind.Sample;
        Channel = Channels.Pressure;
        Counts = counts;
        TimeMicroseconds = NextPointMicroseconds + deviation;
        NextPointMicroseconds += PeriodMicroseconds;
    }

    private bool TakeTagged(int tag, int at)
    {
        if (tag == (IsWide ? EntryTags.WideLate : EntryTags.Late))
        {
            int length = IsWide ? 3 : 2;
            TakePoint(Sevens(at, length), Sevens(at + length, 4) - EntryTags.FarSpan);
            return true;
        }

        if (tag == EntryTags.Skip)
        {
            Kind = EntryKind.Skip;
            Points = Sevens(at, 3);
            Reason = Sevens(at + 3, 1);
            NextPointMicroseconds += (long)Points * PeriodMicroseconds;
            return true;
        }

        int channel = tag - (IsWide ? EntryTags.WideChannel : EntryTags.Channel);
        if (channel is > 0 and < 8)
        {
            Kind = EntryKind.Reading;
            Channel = channel;
            Counts = Sevens(at, IsWide ? 3 : 2);
            return true;
        }

        return false;
    }

    private bool IsWide => _sampleLength == WideSampleLength;

    private int Sevens(int at, int count)
    {
        int value = 0;
        for (int i = 0; i < count; i++)
        {
            value |= (_body[at + i] & 0x7F) << (7 * i);
        }

        return value;
    }
}
