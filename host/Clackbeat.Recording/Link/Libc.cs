using System.Buffers.Binary;
using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Clackbeat.Recording.Link;

/// <summary>The few POSIX calls behind a serial port (POSIX.1-2017, XBD 11; constants from the systems' own headers).</summary>
internal static partial class Libc
{
    // A termios is 60 bytes on Linux and 72 on macOS; the calls only touch their own size.
    public const int TermiosRoom = 256;

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

    public static int ReadWrite => 2;

    public static int NoControllingTerminal => Mac ? 0x20000 : 0x100;

    public static int NonBlocking => Mac ? 4 : 0x800;

    public static int CloseOnExec => Mac ? 0x1000000 : 0x80000;

    public static short PollIn => 1;

    public static short PollOut => 4;

    public static int TryAgain => Mac ? 35 : 11;

    public static int Interrupted => 4;

    public static int NoEntry => 2;

    public static int NoDevice => 19;

    public static int NoSuchDevice => 6;

    public static int AccessDenied => 13;

    public static int NotPermitted => 1;

    public static int Busy => 16;

    public static int NoTerminal => 25;

    public static int Invalid => 22;

    public static int LockAtOnce => 2 | 4;

    public static nuint ExclusiveUse => Mac ? 0x2000740Du : 0x540Cu;

    /// <summary>The system's name for a speed; 0 hangs up and so stands for none.</summary>
    public static nuint SpeedOf(int baud) => Mac ? (nuint)baud : LinuxSpeeds.TryGetValue(baud, out uint code)
        ? code
        : throw new LineException(
            LineFault.Failed,
            $"This system knows no speed of {baud} bit/s; it knows {string.Join(", ", LinuxSpeeds.Keys.Order())}.",
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

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    public static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "flock", SetLastError = true)]
    public static partial int Lock(int file, int how);

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    public static partial int Claim(int file, nuint request);

    [LibraryImport("libc", EntryPoint = "tcgetattr", SetLastError = true)]
    public static partial int GetAttributes(int file, Span<byte> termios);

    [LibraryImport("libc", EntryPoint = "tcsetattr", SetLastError = true)]
    public static partial int SetAttributes(int file, int when, Span<byte> termios);

    [LibraryImport("libc", EntryPoint = "cfmakeraw")]
    public static partial void MakeRaw(Span<byte> termios);

    [LibraryImport("libc", EntryPoint = "cfsetspeed", SetLastError = true)]
    public static partial int SetSpeed(Span<byte> termios, nuint speed);

    [LibraryImport("libc", EntryPoint = "read", SetLastError = true)]
    public static partial nint Read(SafeFileHandle file, Span<byte> buffer, nint count);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    public static partial nint Write(SafeFileHandle file, ReadOnlySpan<byte> buffer, nint count);

    [LibraryImport("libc", EntryPoint = "poll", SetLastError = true)]
    public static partial int Poll(ref PollRequest request, nuint count, int milliseconds);

    [StructLayout(LayoutKind.Sequential)]
    public struct PollRequest
    {
        public int File;
        public short Wanted;
        public short Happened;
    }
}
