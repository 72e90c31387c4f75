using System.Reflection;

[assembly: AssemblyVersion("1.1.0.0")]

namespace System.Device.I2c;

public enum I2cTransferStatus
{
    UnknownError = 0,
    FullTransfer = 1,
}

public struct I2cTransferResult
{
    public I2cTransferStatus Status => throw new NotSupportedException();
}

public class I2cConnectionSettings
{
    public I2cConnectionSettings(int busId, int deviceAddress) => throw new NotSupportedException();
}

public class I2cDevice : IDisposable
{
    public I2cDevice(I2cConnectionSettings settings) => throw new NotSupportedException();

    public I2cTransferResult Write(SpanByte buffer) => throw new NotSupportedException();

    public I2cTransferResult WriteRead(SpanByte writeBuffer, SpanByte readBuffer) => throw new NotSupportedException();

    public void Dispose() => throw new NotSupportedException();
}
