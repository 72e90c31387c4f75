using System.ComponentModel;
using System.Runtime.InteropServices;
using Clackbeat.Shared.Posix;

namespace Clackbeat.VirtualLogger.Wires;

/// <summary>
/// A serial port made by the system: any program opens <see cref="PortPath"/> as a serial port, and the virtual logger
/// holds the other end. Linux and macOS; Windows has none.
/// </summary>
public sealed class PseudoTerminal : IWire
{
    private const int WaitStepMilliseconds = 20;

    // A termios is 60 bytes on Linux and 72 on macOS; the calls only touch their own size.
    private const int TermiosRoom = 256;

    private readonly int _device;
    private readonly int _port;
    private readonly bool _dropWhenFull;
    private readonly CancellationToken _cancellation;
    private bool _disposed;

    private PseudoTerminal(int device, int port, string path, bool dropWhenFull, CancellationToken cancellation)
    {
        _device = device;
        _port = port;
        PortPath = path;
        _dropWhenFull = dropWhenFull;
        _cancellation = cancellation;
    }

    /// <summary>True where the system offers pseudo-terminals.</summary>
    public static bool IsSupported => OperatingSystem.IsLinux() || OperatingSystem.IsMacOS();

    /// <summary>The port as other programs open it, such as /dev/pts/3.</summary>
    public string PortPath { get; }

    /// <summary>Opens a pair in raw mode.</summary>
    /// <param name="dropWhenFull">
    /// True: bytes that nobody takes are lost, as on a real line. False: the device waits for its reader, so that a
    /// device faster than real time loses nothing.
    /// </param>
    /// <param name="cancellation">Ends a wait for the reader.</param>
    public static PseudoTerminal Open(bool dropWhenFull, CancellationToken cancellation)
    {
        if (!IsSupported)
        {
            throw new PlatformNotSupportedException("This system has no pseudo-terminals; use the in-process line.");
        }

        int device = Check(Libc.OpenTerminal(Libc.ReadWrite | Libc.NoControllingTerminal), "posix_openpt");
        Check(Libc.Grant(device), "grantpt");
        Check(Libc.Unlock(device), "unlockpt");
        string path = Marshal.PtrToStringUTF8(Libc.NameOf(device))
            ?? throw new Win32Exception(Marshal.GetLastPInvokeError(), "ptsname failed");

        // Held open by us too: otherwise the line would hang up between two readers, and its settings be lost.
        int port = Check(Libc.Open(path, Libc.ReadWrite | Libc.NoControllingTerminal), "open " + path);
        Span<byte> termios = stackalloc byte[TermiosRoom];
        Check(Libc.GetAttributes(port, termios), "tcgetattr");
        Libc.MakeRaw(termios);
        Check(Libc.SetAttributes(port, 0, termios), "tcsetattr");
        Check(Libc.Control(device, Libc.SetFileFlags, Libc.ReadWrite | Libc.NonBlocking), "fcntl");
        return new PseudoTerminal(device, port, path, dropWhenFull, cancellation);
    }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> bytes)
    {
        while (bytes.Length > 0 && !_disposed && !_cancellation.IsCancellationRequested)
        {
            nint written = Libc.Write(_device, bytes, bytes.Length);
            if (written > 0)
            {
                bytes = bytes[(int)written..];
            }
            else if (_dropWhenFull)
            {
                return;
            }
            else
            {
                Wait(Libc.PollOut, WaitStepMilliseconds);
            }
        }
    }

    /// <inheritdoc/>
    public int Read(Span<byte> buffer)
    {
        nint count = _disposed ? 0 : Libc.Read(_device, buffer, buffer.Length);
        return count > 0 ? (int)count : 0;
    }

    /// <inheritdoc/>
    public void WaitForInput(int milliseconds) => Wait(Libc.PollIn, milliseconds);

    /// <inheritdoc/>
    public void Dispose()
    {
        if (!_disposed)
        {
            _disposed = true;
            _ = Libc.Close(_port);
            _ = Libc.Close(_device);
        }
    }

    private static int Check(int result, string call)
    {
        return result >= 0 ? result : throw new Win32Exception(Marshal.GetLastPInvokeError(), call + " failed");
    }

    private void Wait(short what, int milliseconds)
    {
        Libc.PollRequest request = new() { File = _device, Wanted = what };
        _ = Libc.Poll(ref request, 1, milliseconds);
    }
}
