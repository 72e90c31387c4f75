namespace Clackbeat.Logger.Converting;

/// <summary>A converter beside the microcontroller, in place of its own.</summary>
public interface IConverterChip
{
    /// <summary>Converts an input, 0 to 3 [counts]; negative when no chip answers. May throw whatever the bus throws.</summary>
    int Read(int input);
}
