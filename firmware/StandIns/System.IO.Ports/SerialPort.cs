using System.Reflection;

[assembly: AssemblyVersion("1.1.0.0")]

namespace System.IO.Ports;

public enum Parity
{
    None = 0,
}

public enum StopBits
{
    One = 1,
}

public sealed class SerialPort : IDisposable
{
    public SerialPort(
        string portName,
        int baudRate = 9600,
        Parity parity = Parity.None,
        int dataBits = 8,
        StopBits stopBits = StopBits.One) => throw new NotSupportedException();

    public int BytesToRead => throw new NotSupportedException();

    public int ReadBufferSize
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public void Open() => throw new NotSupportedException();

    public int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public void Dispose() => throw new NotSupportedException();
}
