using System.Buffers.Binary;

namespace Clackbeat.Fuzz;

/// <summary>
/// Changes inputs: bits, bytes, numbers at the edges of their range, stretches cut, doubled, moved or taken from another
/// input. The same seed gives the same inputs.
/// </summary>
internal sealed class Mutator(int seed)
{
    private const int MostChanges = 6;

    private static readonly long[] Edges =
    [
        0, 1, -1, 127, 128, 255, 256, short.MaxValue, ushort.MaxValue, int.MaxValue, int.MinValue, uint.MaxValue, long.MaxValue,
        long.MinValue, 1L << 47, (1L << 48) - 1, 1 << 20, (1 << 20) + 1,
    ];

    private static readonly byte[][] Words =
    [
        .. new[]
        {
            "[", "]", "{", "}", "\"", "\"\"\"", "'", "=", "\n", "\r\n", ",", ";", "\t", ".", "1e308", "-1e-400", "nan", "1e999", "0x", "#", "\\u",
            " m", " bar", " ft", " to ", "%", "[[fitting]]", "[site]", "name", "t_s", "p_kPa", "°", "\uFEFF", "½", "-", "−", "99999999999999999999",
        }.Select(System.Text.Encoding.UTF8.GetBytes),
    ];

    private readonly Random _random = new(seed);

    /// <summary>A changed copy.</summary>
    /// <param name="input">What to change.</param>
    /// <param name="other">An input to take stretches from.</param>
    /// <param name="longest">Longest result [bytes].</param>
    public byte[] Change(byte[] input, byte[] other, int longest)
    {
        List<byte> bytes = [.. input];
        for (int changes = _random.Next(1, MostChanges + 1); changes > 0; changes--)
        {
            ChangeOnce(bytes, other);
        }

        if (bytes.Count > longest)
        {
            bytes.RemoveRange(longest, bytes.Count - longest);
        }

        return [.. bytes];
    }

    /// <summary>Picks one.</summary>
    public byte[] Pick(IReadOnlyList<byte[]> inputs) => inputs[_random.Next(inputs.Count)];

    /// <summary>Picks any, or three times in four the shortest of four: short inputs run faster, and more of their changes matter.</summary>
    public byte[] PickShort(IReadOnlyList<byte[]> inputs)
    {
        byte[] picked = Pick(inputs);
        for (int others = _random.Next(4) > 0 ? 3 : 0; others > 0; others--)
        {
            byte[] other = Pick(inputs);
            picked = other.Length < picked.Length ? other : picked;
        }

        return picked;
    }

    private void ChangeOnce(List<byte> bytes, byte[] other)
    {
        int at = _random.Next(bytes.Count + 1);
        int span = 1 + (int)Math.Pow(Math.Max(1, bytes.Count), _random.NextDouble());
        span = Math.Min(span, bytes.Count - at);
        switch (_random.Next(9))
        {
            case 0 when at < bytes.Count:
                bytes[at] ^= (byte)(1 << _random.Next(8));
                break;
            case 1 when at < bytes.Count:
                bytes[at] = (byte)_random.Next(256);
                break;
            case 2 or 3:
                PutEdge(bytes, at);
                break;
            case 4:
                bytes.RemoveRange(at, span);
                break;
            case 5:
                bytes.InsertRange(at, bytes.GetRange(at, span));
                break;
            case 6:
                bytes.InsertRange(at, Words[_random.Next(Words.Length)]);
                break;
            case 7 when other.Length > 0:
                int from = _random.Next(other.Length);
                bytes.InsertRange(at, other[from..Math.Min(other.Length, from + 1 + _random.Next(200))]);
                break;
            default:
                bytes.Insert(at, (byte)_random.Next(256));
                break;
        }
    }

    private void PutEdge(List<byte> bytes, int at)
    {
        Span<byte> number = stackalloc byte[8];
        BinaryPrimitives.WriteInt64LittleEndian(number, Edges[_random.Next(Edges.Length)] + _random.Next(-1, 2));
        int width = 1 << _random.Next(4);
        for (int i = 0; i < width && at + i < bytes.Count; i++)
        {
            bytes[at + i] = number[i];
        }
    }
}
