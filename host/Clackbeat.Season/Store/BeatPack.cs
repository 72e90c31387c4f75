using System.IO.Compression;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>
/// A burst's beats in a few bytes each: every column in steps of what can be measured, as zigzag variable-length
/// differences from the beat before (the scheme of Protocol Buffers' sint64), then deflated. Layout in docs/season-store.md.
/// </summary>
public static class BeatPack
{
    private const byte Version = 1;
    private const int MostBeats = 10_000_000;
    private const double TimeStepS = 1e-4;
    private const double PressureStepPa = 100;
    private const double VelocityStepMPerS = 1e-3;
    private const double VolumeStepM3 = 1e-7;

    /// <summary>Packs beats.</summary>
    /// <param name="beats">The beats, in order.</param>
    public static byte[] Pack(IReadOnlyList<SeasonBeat> beats)
    {
        using var bytes = new MemoryStream();
        bytes.WriteByte(Version);
        using (var deflate = new DeflateStream(bytes, CompressionLevel.Fastest, leaveOpen: true))
        using (var writer = new BinaryWriter(deflate))
        {
            writer.Write7BitEncodedInt(beats.Count);
            WriteColumn(writer, beats, b => b.ClosureS / TimeStepS);
            WriteColumn(writer, beats, b => b.IntervalS / TimeStepS);
            WriteColumn(writer, beats, b => b.PeakPa / PressureStepPa);
            WriteColumn(writer, beats, b => b.DeliveryPa / PressureStepPa);
            WriteColumn(writer, beats, b => b.SuctionPa / PressureStepPa);
            foreach (SeasonBeat beat in beats)
            {
                writer.Write(beat.Flow is not null);
            }

            SeasonBeat[] flowing = [.. beats.Where(b => b.Flow is not null)];
            WriteColumn(writer, flowing, b => b.Flow!.ClosingVelocityMPerS / VelocityStepMPerS);
            WriteColumn(writer, flowing, b => b.Flow!.DeliveredM3 / VolumeStepM3);
            WriteColumn(writer, flowing, b => b.Flow!.WasteM3 / VolumeStepM3);
        }

        return bytes.ToArray();
    }

    /// <summary>Unpacks beats.</summary>
    /// <param name="packed">What <see cref="Pack"/> made.</param>
    /// <param name="most">Most beats that are taken; more are refused before memory is taken for them.</param>
    /// <exception cref="InputException">The bytes are damaged or of a later program.</exception>
    public static IReadOnlyList<SeasonBeat> Unpack(byte[] packed, int most = MostBeats)
    {
        if (packed.Length == 0 || packed[0] != Version)
        {
            throw InputException.Of("store.strange-beats");
        }

        try
        {
            using var deflate = new DeflateStream(new MemoryStream(packed, 1, packed.Length - 1), CompressionMode.Decompress);
            using var reader = new BinaryReader(deflate);
            return Read(reader, most);
        }
        catch (Exception failure) when (failure is InvalidDataException or EndOfStreamException or FormatException)
        {
            throw InputException.Of(failure, "store.damaged-beats");
        }
    }

    private static SeasonBeat[] Read(BinaryReader reader, int most)
    {
        int count = reader.Read7BitEncodedInt();
        if (count < 0 || count > most)
        {
            throw new InvalidDataException();
        }

        double[] closure = ReadColumn(reader, count, TimeStepS);
        double[] interval = ReadColumn(reader, count, TimeStepS);
        double[] peak = ReadColumn(reader, count, PressureStepPa);
        double[] delivery = ReadColumn(reader, count, PressureStepPa);
        double[] suction = ReadColumn(reader, count, PressureStepPa);
        bool[] flows = [.. Enumerable.Range(0, count).Select(_ => reader.ReadBoolean())];
        int flowing = flows.Count(f => f);
        double[] velocity = ReadColumn(reader, flowing, VelocityStepMPerS);
        double[] delivered = ReadColumn(reader, flowing, VolumeStepM3);
        double[] waste = ReadColumn(reader, flowing, VolumeStepM3);
        var beats = new SeasonBeat[count];
        for (int i = 0, f = 0; i < count; i++)
        {
            BeatFlow? flow = flows[i] ? new Signal.Beats.BeatFlow(velocity[f], delivered[f], waste[f]) : null;
            f += flows[i] ? 1 : 0;
            beats[i] = new SeasonBeat(closure[i], interval[i], peak[i], delivery[i], suction[i], flow);
        }

        return beats;
    }

    private static void WriteColumn(BinaryWriter writer, IReadOnlyList<SeasonBeat> beats, Func<SeasonBeat, double> steps)
    {
        long last = 0;
        foreach (SeasonBeat beat in beats)
        {
            long value = checked((long)Math.Round(steps(beat)));
            long difference = value - last;
            writer.Write7BitEncodedInt64((difference << 1) ^ (difference >> 63));
            last = value;
        }
    }

    private static double[] ReadColumn(BinaryReader reader, int count, double step)
    {
        double[] values = new double[count];
        long last = 0;
        for (int i = 0; i < count; i++)
        {
            long coded = reader.Read7BitEncodedInt64();
            last += (long)((ulong)coded >> 1) ^ -(coded & 1);
            values[i] = last * step;
        }

        return values;
    }
}
