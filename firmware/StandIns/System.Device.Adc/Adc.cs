using System.Reflection;

[assembly: AssemblyVersion("1.1.0.0")]

namespace System.Device.Adc;

public abstract class AdcControllerBase
{
    public abstract int ChannelCount { get; }

    public abstract int MinValue { get; }

    public abstract int MaxValue { get; }

    public abstract int ResolutionInBits { get; }

    public abstract AdcChannel OpenChannel(int channelNumber);
}

public class AdcController : AdcControllerBase
{
    public AdcController() => throw new NotSupportedException();

    public override int ChannelCount => throw new NotSupportedException();

    public override int MinValue => throw new NotSupportedException();

    public override int MaxValue => throw new NotSupportedException();

    public override int ResolutionInBits => throw new NotSupportedException();

    public override AdcChannel OpenChannel(int channelNumber) => throw new NotSupportedException();
}

public abstract class AdcChannelBase
{
    public abstract int ReadValue();
}

public class AdcChannel : AdcChannelBase, IDisposable
{
    public override int ReadValue() => throw new NotSupportedException();

    public void Dispose() => throw new NotSupportedException();
}
