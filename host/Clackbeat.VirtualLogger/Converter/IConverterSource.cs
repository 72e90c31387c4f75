namespace Clackbeat.VirtualLogger.Converter;

/// <summary>What the virtual logger's converter sees: the world behind the sensor.</summary>
public interface IConverterSource
{
    /// <summary>Reads a channel at an instant; false when there is no reading, as behind the end of a signal.</summary>
    /// <param name="channel">Channel, from the protocol's channels.</param>
    /// <param name="timeS">True time since the virtual logger began [s]: not the device's own, drifting clock.</param>
    /// <param name="counts">Converter counts.</param>
    bool TryRead(int channel, double timeS, out int counts);
}
