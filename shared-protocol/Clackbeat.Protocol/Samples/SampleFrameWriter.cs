using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Samples;

/// <summary>
/// Builds one samples frame an entry at a time (SPEC §6, §11), and closes it in steps of three bytes, so that the work can
/// be spread between the samples that follow. Nothing is allocated after construction.
/// </summary>
public sealed class SampleFrameWriter : FrameWriter
{
    /// <summary>What one grid point can need [bytes]: a late sample and a reading of two other channels.</summary>
    public const int PointRoom = 13;

    /// <summary>The same in a frame of wide samples [bytes].</summary>
    public const int WidePointRoom = 16;

    // Behind this position only the tail fits: period (4), base (8), CRC (4), delimiter.
    private const int LastEntryPosition = FrameLimits.MaxFrame - 1 - FrameLimits.CrcLength - 12;

    private const int EmptyPosition = 5;

    // An ordinary sample or reading; and a frame that is as full as it gets before the entries of a point might not fit.
    private const int EntryLength = 3;
    private const int WideEntryLength = 4;
    private const int Thousand = 1000;
    private const int TailLength = 12 + FrameLimits.CrcLength + 1;

    // The three top bits, and the deviation's offset at its place.
    private const int Ones = 0x808080 + (2 * EntryTags.NearSpan << 13);

    // The same for the lower three bytes of a wide sample; its deviation's offset lies in the fourth.
    private const int WideOnes = 0x808080;
    private const int WideTop = 0x80;

    private readonly bool _isWide;
    private readonly int _fullPosition;
    private long _base;
    private int _period;
    private int _closeStep;

    /// <summary>Makes a writer of one kind of frame.</summary>
    /// <param name="isWide">True for samples of a converter of more than 12 bits, up to 16.</param>
    public SampleFrameWriter(bool isWide)
    {
        _isWide = isWide;
        _fullPosition = LastEntryPosition - (isWide ? WidePointRoom : PointRoom);
    }

    /// <summary>Length of the frames that carry so many samples and readings of other channels [bytes].</summary>
    /// <param name="samples">Samples.</param>
    /// <param name="readings">Readings of other channels.</param>
    /// <param name="isWide">True for samples of a converter of more than 12 bits.</param>
    public static long BytesFor(long samples, long readings, bool isWide)
    {
        int entry = isWide ? WideEntryLength : EntryLength;
        int full = LastEntryPosition - (isWide ? WidePointRoom : PointRoom);
        return (((samples + readings) * entry / (full - EmptyPosition)) + 1) * (full + entry + TailLength);
    }

    /// <summary>
    /// Shortest period whose samples a line carries [µs], when each frame drains before the next; the reports that come every
    /// ten seconds are let out.
    /// </summary>
    /// <param name="baud">Speed of the line [bit/s]; ten bits carry a byte.</param>
    /// <param name="supplyEvery">Samples to one reading of the supply; 0 none.</param>
    /// <param name="deliveryEvery">Samples to one reading of the delivery pressure; 0 none.</param>
    /// <param name="isWide">True for samples of a converter of more than 12 bits.</param>
    public static int LeastPeriodMicroseconds(int baud, int supplyEvery, int deliveryEvery, bool isWide)
    {
        long readings = (supplyEvery > 0 ? Thousand / supplyEvery : 0) + (deliveryEvery > 0 ? Thousand / deliveryEvery : 0);
        long microsecondsPerByte = (10_000_000 + baud - 1) / baud;
        return (int)(((BytesFor(Thousand, readings, isWide) * microsecondsPerByte) + Thousand - 1) / Thousand);
    }

    /// <summary>True when the entries of one more grid point may not fit.</summary>
    public bool IsFull => _position > _fullPosition;

    /// <summary>True when the frame has no entry yet.</summary>
    public bool IsEmpty => _position == EmptyPosition;

    /// <summary>Opens the frame; it needs no time yet.</summary>
    public void Open(int sequence)
    {
        Begin(_isWide ? Kinds.WideSamples : Kinds.Samples);
        AppendU16(sequence);
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

    /// <summary>
    /// Adds a wide sample that is at most 2047 µs late and 2048 µs early; true when the frame then <see cref="IsFull"/>. Like
    /// <see cref="AddSample"/> it makes no call.
    /// </summary>
    /// <param name="counts">Converter counts, 0 to 65535.</param>
    /// <param name="deviation">True time minus grid point [µs], −2048 to 2047.</param>
    public bool AddWideSample(int counts, int deviation)
    {
        // Counts in 7, 7 and 2 bits, the deviation in 5 and 7.
        int near = deviation + EntryTags.WideNearSpan;
        int word = WideOnes | (counts & 0x7F) | ((counts & 0x3F80) << 1) | ((counts & 0xC000) << 2) | ((near & 0x1F) << 18);
        int top = WideTop | (near >> 5);
        byte[] buffer = _buffer;
        int at = _position;
        buffer[at] = (byte)word;
        buffer[at + 1] = (byte)(word >> 8);
        buffer[at + 2] = (byte)(word >> 16);
        buffer[at + 3] = (byte)top;
        _position = at + 4;
        uint mixed = _crc ^ (uint)word;
        uint crc = Crc32.Table2[(int)(mixed & 0xFF)]
            ^ Crc32.Table1[(int)((mixed >> 8) & 0xFF)]
            ^ Crc32.Table0[(int)((mixed >> 16) & 0xFF)]
            ^ (mixed >> 24);
        _crc = Crc32.Table0[(int)((crc ^ (uint)top) & 0xFF)] ^ (crc >> 8);
        return at > LastEntryPosition - WidePointRoom - 4;
    }

    /// <summary>
    /// Adds a sample whose deviation is too large for <see cref="AddSample"/> or, in a frame of wide samples, for
    /// <see cref="AddWideSample"/>.
    /// </summary>
    /// <param name="counts">Converter counts, 0 to 16383; 0 to 65535 in a frame of wide samples.</param>
    /// <param name="deviation">True time minus grid point [µs], within ± 134 s.</param>
    public void AddLate(int counts, int deviation)
    {
        int far = deviation + EntryTags.FarSpan;
        if (_isWide)
        {
            AppendByte(EntryTags.WideLate);
            PutThree(Sevens(counts));
        }
        else
        {
            PutThree(EntryTags.Late | (Sevens(counts) & 0xFFFF) << 8);
        }

        PutThree(Sevens(far));
        AppendByte((byte)(0x80 | ((far >> 21) & 0x7F)));
    }

    /// <summary>Says that grid points have no sample.</summary>
    /// <param name="points">How many, 1 to <see cref="EntryTags.MaxSkip"/>.</param>
    /// <param name="reason">Why, from <see cref="LossReasons"/>.</param>
    public void AddSkip(int points, int reason)
    {
        int sevens = Sevens(points);
        PutThree(EntryTags.Skip | (sevens & 0xFFFF) << 8);
        AppendByte((byte)(sevens >> 16));
        AppendByte((byte)(0x80 | reason));
    }

    /// <summary>Adds a reading of another channel, made right after the last sample.</summary>
    /// <param name="channel">1 to 7.</param>
    /// <param name="counts">0 to 16383; 0 to 65535 in a frame of wide samples.</param>
    public void AddReading(int channel, int counts)
    {
        if (_isWide)
        {
            AppendByte((byte)(EntryTags.WideChannel + channel));
            PutThree(Sevens(counts));
            return;
        }

        PutThree((EntryTags.Channel + channel) | (Sevens(counts) & 0xFFFF) << 8);
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
                PutThree(EntryTags.Period | (Sevens(_period) & 0xFFFF) << 8);
                return false;
            case 1:
                PutThree(Sevens(_period) >> 16 | EntryTags.Base << 8 | (0x80 | ((int)_base & 0x7F)) << 16);
                return false;
            case 2:
                PutThree(Sevens((int)(_base >> 7)));
                return false;
            case 3:
                PutThree(Sevens((int)(_base >> 28)));
                return false;
            default:
                End();
                return true;
        }
    }

    // The lowest 21 bits in three bytes of seven.
    private static int Sevens(int value) =>
        0x808080 | (value & 0x7F) | ((value & 0x3F80) << 1) | ((value & 0x1FC000) << 2);

    // Three bytes that are no zeros, as in AddSample; the word has no fourth.
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
}
