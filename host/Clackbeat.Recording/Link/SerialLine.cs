using System.IO.Ports;

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
    public Stream Open()
    {
        if (!OperatingSystem.IsWindows() && !File.Exists(Name))
        {
            throw new LineException(
                LineFault.Missing, $"There is no port {Name}. Plug the logger in; 'clackbeat ports' lists what is there.", null);
        }

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

    private LineException Explain(Exception failure) => failure switch
    {
        UnauthorizedAccessException when PortRights.Denied(Name) => new LineException(
            LineFault.NoPermission, $"You may not use {Name}. {PortRights.Remedy(Name)}", failure),
        UnauthorizedAccessException => new LineException(
            LineFault.Busy, $"Another program holds {Name}. Close it (a terminal program, another recording), then try again.", failure),
        FileNotFoundException => new LineException(
            LineFault.Missing, $"There is no port {Name}. Plug the logger in; 'clackbeat ports' lists what is there.", failure),
        ArgumentException or InvalidOperationException => new LineException(
            LineFault.Failed, $"{Name} is no serial port. 'clackbeat ports' lists those that are there.", failure),
        _ => new LineException(
            LineFault.Failed,
            $"Port {Name} can't be opened: {failure.Message.TrimEnd('.')}. Check the cable and the adapter, then try again.",
            failure),
    };

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
