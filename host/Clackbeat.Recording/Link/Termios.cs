using System.Buffers.Binary;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Link;

/// <summary>Fields of a POSIX termios that no call sets (POSIX.1-2017, XBD 11; constants from the systems' own headers).</summary>
internal static class Termios
{
    private static readonly bool Mac = OperatingSystem.IsMacOS();

    // asm-generic/termbits.h; macOS counts in bits a second.
    private static readonly Dictionary<int, uint> LinuxSpeeds = new()
    {
        [9600] = 0x0D,
        [19_200] = 0x0E,
        [38_400] = 0x0F,
        [57_600] = 0x1001,
        [115_200] = 0x1002,
        [230_400] = 0x1003,
        [460_800] = 0x1004,
        [500_000] = 0x1005,
        [576_000] = 0x1006,
        [921_600] = 0x1007,
        [1_000_000] = 0x1008,
        [1_500_000] = 0x100A,
        [2_000_000] = 0x100B,
    };

    /// <summary>The system's name for a speed; 0 hangs up and so stands for none.</summary>
    public static nuint SpeedOf(int baud) => Mac ? (nuint)baud : LinuxSpeeds.TryGetValue(baud, out uint code)
        ? code
        : throw new LineException(
            LineFault.Failed,
            Fact.Of("line.no-speed", ("baud", baud), ("known", string.Join(", ", LinuxSpeeds.Keys.Order()))),
            null);

    /// <summary>Receives whatever the modem lines say, and does not hang up the line when the port is closed.</summary>
    public static void IgnoreModemLines(Span<byte> termios)
    {
        // The control flags are the third field; it is a long on macOS.
        int at = Mac ? 16 : 8;
        uint flags = BinaryPrimitives.ReadUInt32LittleEndian(termios[at..]);
        (uint local, uint receive, uint hangUp) = Mac ? (0x8000u, 0x800u, 0x4000u) : (0x800u, 0x80u, 0x400u);
        BinaryPrimitives.WriteUInt32LittleEndian(termios[at..], (flags | local | receive) & ~hangUp);
    }
}
