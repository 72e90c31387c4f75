using System.Reflection;

[assembly: AssemblyVersion("1.3.0.0")]

namespace System.Device.Spi;

public class SpiConnectionSettings
{
    public SpiConnectionSettings(int busId, int chipSelectLine) => throw new NotSupportedException();

    public int ClockFrequency { get; set; }
}

public class SpiDevice : IDisposable
{
    public SpiDevice(SpiConnectionSettings settings) => throw new NotSupportedException();

    public void TransferFullDuplex(SpanByte writeBuffer, SpanByte readBuffer) => throw new NotSupportedException();

    public void Dispose() => throw new NotSupportedException();
}
