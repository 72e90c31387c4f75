using System.IO.Ports;
using Clackbeat.Shared.Posix;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Link;

/// <summary>A serial port.</summary>
/// <param name="name">Its name, such as /dev/ttyUSB0 or COM3.</param>
/// <param name="baud">Speed [bit/s].</param>
public sealed class SerialLine(string name, int baud = SerialLine.UsualBaud) : ILineOpener
{
    /// <summary>Speed of a logger as it comes [bit/s].</summary>
    public const int UsualBaud = 115_200;

    /// <inheritdoc/>
    public string Name { get; } = name;

    /// <inheritdoc/>
    public Stream Open() => OperatingSystem.IsWindows() ? OpenOnWindows() : OpenOnPosix();

    private PosixPort OpenOnPosix()
    {
        try
        {
            return PosixPort.Open(Name, baud);
        }
        catch (PortException refused)
        {
            throw Explain(refused);
        }
    }

    private PortStream OpenOnWindows()
    {
        SerialPort port = new(Name, baud);
        try
        {
            port.Open();
            return new PortStream(port);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException
            or InvalidOperationException)
        {
            port.Dispose();
            throw Explain(failure);
        }
    }

    private LineException Explain(PortException refused) => refused.Error switch
    {
        var e when e == Libc.NoEntry || e == Libc.NoDevice || e == Libc.NoSuchDevice => Missing(refused),
        var e when e == Libc.AccessDenied || e == Libc.NotPermitted => new LineException(
            LineFault.NoPermission, Fact.Of("line.no-right", ("port", Name), ("remedy", PortRights.Remedy(Name))), refused),
        var e when e == Libc.Busy || e == Libc.TryAgain => Busy(refused),
        var e when e == Libc.NoTerminal || e == Libc.Invalid => NoPort(refused),
        _ => Other(refused),
    };

    private LineException Explain(Exception failure) => failure switch
    {
        UnauthorizedAccessException => Busy(failure),
        FileNotFoundException => Missing(failure),
        ArgumentException or InvalidOperationException => NoPort(failure),
        _ => Other(failure),
    };

    private LineException Missing(Exception cause) => new(
        LineFault.Missing, Fact.Of("line.missing", ("port", Name)), cause);

    private LineException Busy(Exception cause) => new(
        LineFault.Busy, Fact.Of("line.busy", ("port", Name)), cause);

    private LineException NoPort(Exception cause) => new(
        LineFault.Failed, Fact.Of("line.no-port", ("port", Name)), cause);

    private LineException Other(Exception cause) => new(
        LineFault.Failed,
        Fact.Of("line.cant-open", ("port", Name), ("why", cause.Message.TrimEnd('.'))),
        cause);

    // The port's own stream, and the port with it when it is disposed.
    private sealed class PortStream(SerialPort port) : Stream
    {
        private readonly Stream _stream = port.BaseStream;

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => true;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override void Flush() => _stream.Flush();

        public override int Read(byte[] buffer, int offset, int count) => _stream.Read(buffer, offset, count);

        public override void Write(byte[] buffer, int offset, int count) => _stream.Write(buffer, offset, count);

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            if (disposing)
            {
                try
                {
                    port.Dispose();
                }
                catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidOperationException)
                {
                    // An adapter that was pulled out can't be closed in order; its handle is gone all the same.
                }
            }

            base.Dispose(disposing);
        }
    }
}
