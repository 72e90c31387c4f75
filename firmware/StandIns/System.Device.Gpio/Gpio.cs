using System.Reflection;

[assembly: AssemblyVersion("1.1.0.0")]

namespace System.Device.Gpio;

public enum PinMode
{
    Input = 0,
    Output = 3,
}

public readonly struct PinValue
{
    public static PinValue High => throw new NotSupportedException();

    public static PinValue Low => throw new NotSupportedException();
}

public class GpioController : IDisposable
{
    public GpioController() => throw new NotSupportedException();

    public GpioPin OpenPin(int pinNumber, PinMode mode) => throw new NotSupportedException();

    public void Dispose() => throw new NotSupportedException();
}

public class GpioPin : IDisposable
{
    public void Write(PinValue value) => throw new NotSupportedException();

    public void Dispose() => throw new NotSupportedException();
}
