using System.Runtime.InteropServices;

namespace Clackbeat.VirtualLogger.Wires;

/// <summary>The few POSIX calls behind a pseudo-terminal (POSIX.1-2017, XSH posix_openpt, grantpt, unlockpt, ptsname).</summary>
internal static partial class Libc
{
    // The constants differ between the systems; values from their own headers.
    private static readonly bool Mac = OperatingSystem.IsMacOS();

    public static int ReadWrite => 2;

    public static int NoControllingTerminal => Mac ? 0x20000 : 0x100;

    public static int NonBlocking => Mac ? 4 : 0x800;

    public static int SetFileFlags => 4;

    public static short PollIn => 1;

    public static short PollOut => 4;

    [LibraryImport("libc", EntryPoint = "posix_openpt", SetLastError = true)]
    public static partial int OpenTerminal(int flags);

    [LibraryImport("libc", EntryPoint = "grantpt", SetLastError = true)]
    public static partial int Grant(int terminal);

    [LibraryImport("libc", EntryPoint = "unlockpt", SetLastError = true)]
    public static partial int Unlock(int terminal);

    [LibraryImport("libc", EntryPoint = "ptsname", SetLastError = true)]
    public static partial IntPtr NameOf(int terminal);

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    public static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    public static partial int Close(int file);

    [LibraryImport("libc", EntryPoint = "fcntl", SetLastError = true)]
    public static partial int Control(int file, int command, int argument);

    [LibraryImport("libc", EntryPoint = "tcgetattr", SetLastError = true)]
    public static partial int GetAttributes(int file, Span<byte> termios);

    [LibraryImport("libc", EntryPoint = "tcsetattr", SetLastError = true)]
    public static partial int SetAttributes(int file, int when, Span<byte> termios);

    [LibraryImport("libc", EntryPoint = "cfmakeraw")]
    public static partial void MakeRaw(Span<byte> termios);

    [LibraryImport("libc", EntryPoint = "read", SetLastError = true)]
    public static partial nint Read(int file, Span<byte> buffer, nint count);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    public static partial nint Write(int file, ReadOnlySpan<byte> buffer, nint count);

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
