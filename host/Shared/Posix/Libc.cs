using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Clackbeat.Shared.Posix;

/// <summary>
/// The few POSIX calls behind a serial port (POSIX.1-2017, XBD 11) and behind a pseudo-terminal (XSH posix_openpt, grantpt, unlockpt,
/// ptsname). The constants differ between the systems; their values are from the systems' own headers. Compiled into each assembly
/// that needs it.
/// </summary>
internal static partial class Libc
{
    // A termios is 60 bytes on Linux and 72 on macOS; the calls only touch their own size.
    public const int TermiosRoom = 256;

    private static readonly bool Mac = OperatingSystem.IsMacOS();

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

    public static int SetFileFlags => 4;

    public static int LockAtOnce => 2 | 4;

    public static nuint ExclusiveUse => Mac ? 0x2000740Du : 0x540Cu;

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    public static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    public static partial int Close(int file);

    [LibraryImport("libc", EntryPoint = "fcntl", SetLastError = true)]
    public static partial int Control(int file, int command, int argument);

    [LibraryImport("libc", EntryPoint = "posix_openpt", SetLastError = true)]
    public static partial int OpenTerminal(int flags);

    [LibraryImport("libc", EntryPoint = "grantpt", SetLastError = true)]
    public static partial int Grant(int terminal);

    [LibraryImport("libc", EntryPoint = "unlockpt", SetLastError = true)]
    public static partial int Unlock(int terminal);

    [LibraryImport("libc", EntryPoint = "ptsname", SetLastError = true)]
    public static partial IntPtr NameOf(int terminal);

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

    [LibraryImport("libc", EntryPoint = "read", SetLastError = true)]
    public static partial nint Read(int file, Span<byte> buffer, nint count);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    public static partial nint Write(int file, ReadOnlySpan<byte> buffer, nint count);

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
