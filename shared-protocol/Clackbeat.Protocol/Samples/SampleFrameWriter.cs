using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Samples;

/// <summary>
/// Builds one samples frame an entry at a time (SPEC §6), and closes it in steps of three bytes, so that the work can
/// be spread between the samples that follow. Nothing is allocated after construction.
/// </summary>
public sealed class SampleFrameWriter : FrameWriter
{
    /// <summary>What one grid point can need [bytes]: a late sample and a reading of two other channels.</summary>
    public const int PointRoom = 13;

    // Behind this position only the tail fits: period (4), base (8), CRC (4), delimiter.
    private const int LastEntryPosition = FrameLimits.MaxFrame - 1 - FrameLimits.CrcLength - 12;

    private const int EmptyPosition = 5;

    // The three top bits, and the deviation's offset at its place.
    private const int Ones = 0x808080 + (2 * EntryTags.NearSpan << 13);

    private long _base;
    private int _period;
    private int _closeStep;

    /// <summary>True when the entries of one more grid point may not fit.</summary>
    public bool IsFull => _position > LastEntryPosition - PointRoom;

    /// <summary>True when the frame has no entry yet.</summary>
    public bool IsEmpty => _position == EmptyPosition;

    /// <summary>Opens the frame; it needs no time yet.</summary>
    public void Open(int sequence)
    {
        Begin(Kinds.Samples);
        PutU16(sequence);
        _closeStep = 0;
    }

    /// <summary>
    /// Adds a sample that is at most 255 µs late and 256 µs early; true when the frame then <see cref="IsFull"/>. This is
    /// the path of nearly every sample, so it makes no call.
    /// </summary>
    /// <param name="counts">Converter counts, 0 to 4095.</param>
    /// <param name="deviation">True time minus grid point [µs], −256 to 255.</param>
    public bool AddSample(int counts, int deviation)
    {
        // Counts in 7 and 5 bits, the deviation in 2 and 7, a one above each seven: adding the upper part of a number to
        // itself moves it one place up, past that one.
        int word = Ones + counts + (counts & 0xF80) + ((deviation + (deviation & -4)) << 13);
        byte[] buffer = _buffer;
        int at = _position;
        buffer[at] = (byte)word;
        buffer[at + 1] = (byte)(word >> 8);
        buffer[at + 2] = (byte)(word >> 16);
        _position = at + 3;

        // Three bytes through the CRC at once (Kounavis and Berry, doi 10.1109/TC.2008.85); no zeros, no stuffing.
        uint mixed = _crc ^ (uint)word;
        _crc = Crc32.Table2[(int)(mixed & 0xFF)]
            ^ Crc32.Table1[(int)((mixed >> 8) & 0xFF)]
            ^ Crc32.Table0[(int)((mixed >> 16) & 0xFF)]
            ^ (mixed >> 24);
        return at > LastEntryPosition - PointRoom - 3;
    }

    /// <summary>Adds a sample whose deviation is too large for <see cref="AddSample"/>.</summary>
    /// <param name="counts">Converter counts, 0 to 16383.</param>
    /// <param name="deviation">True time minus grid point [µs], within ± 134 s.</param>
    public void AddLate(int counts, int deviation)
    {
        Put(EntryTags.Late);
        PutSevens(counts, 2);
        PutSevens(deviation + EntryTags.FarSpan, 4);
    }

    /// <summary>Says that grid points have no sample.</summary>
    /// <param name="points">How many, 1 to <see cref="EntryTags.MaxSkip"/>.</param>
    /// <param name="reason">Why, from <see cref="LossReasons"/>.</param>
    public void AddSkip(int points, int reason)
    {
        Put(EntryTags.Skip);
        PutSevens(points, 3);
        PutSevens(reason, 1);
    }

    /// <summary>Adds a reading of another channel, made right after the last sample.</summary>
    /// <param name="channel">1 to 7.</param>
    /// <param name="counts">0 to 16383.</param>
    public void AddReading(int channel, int counts)
    {
        Put((byte)(EntryTags.Channel + channel));
        PutSevens(counts, 2);
    }

    /// <summary>Ends the entries. The frame is complete when <see cref="CloseStep"/> has returned true.</summary>
    /// <param name="baseMicroseconds">Time of the frame's first grid point [µs].</param>
    /// <param name="periodMicroseconds">The grid's period [µs].</param>
    public void BeginClose(long baseMicroseconds, int periodMicroseconds)
    {
        _base = baseMicroseconds;
        _period = periodMicroseconds;
        _closeStep = 0;
    }

    /// <summary>Does a small part of the closing; true when the frame is complete.</summary>
    public bool CloseStep()
    {
        int step = _closeStep;
        _closeStep = step + 1;
        switch (step)
        {
            case 0:
                PutThree(EntryTags.Period | Seven(_period, 0) << 8 | Seven(_period, 7) << 16);
                return false;
            case 1:
                PutThree(Seven(_period, 14) | EntryTags.Base << 8 | Seven(_base, 0) << 16);
                return false;
            case 2:
                PutThree(Seven(_base, 7) | Seven(_base, 14) << 8 | Seven(_base, 21) << 16);
                return false;
            case 3:
                PutThree(Seven(_base, 28) | Seven(_base, 35) << 8 | Seven(_base, 42) << 16);
                return false;
            default:
                End();
                return true;
        }
    }

    private static int Seven(long value, int shift) => 0x80 | ((int)(value >> shift) & 0x7F);

    // Three bytes that are no zeros, as in AddSample.
    private void PutThree(int word)
    {
        byte[] buffer = _buffer;
        int at = _position;
        buffer[at] = (byte)word;
        buffer[at + 1] = (byte)(word >> 8);
        buffer[at + 2] = (byte)(word >> 16);
        _position = at + 3;
        uint mixed = _crc ^ (uint)word;
        _crc = Crc32.Table2[(int)(mixed & 0xFF)]
            ^ Crc32.Table1[(int)((mixed >> 8) & 0xFF)]
            ^ Crc32.Table0[(int)((mixed >> 16) & 0xFF)]
            ^ (mixed >> 24);
    }

    private void PutSevens(int value, int count)
    {
        for (int i = 0; i < count; i++)
        {
            Put((byte)(0x80 | (value & 0x7F)));
            value >>= 7;
        }
    }
}
