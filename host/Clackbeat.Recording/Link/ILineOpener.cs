namespace Clackbeat.Recording.Link;

/// <summary>Opens a line to a logger, and again after it was cut.</summary>
public interface ILineOpener
{
    /// <summary>What the user calls it.</summary>
    string Name { get; }

    /// <summary>
    /// How long small pieces may gather between two reads. Bytes of a serial port come a few at a time, and reading each
    /// would cost far more of the processor; a line that hands over whole pieces needs no rest.
    /// </summary>
    TimeSpan Rest => TimeSpan.FromMilliseconds(50);

    /// <summary>Opens it; disposing the stream closes it.</summary>
    /// <exception cref="LineException">It can't be opened.</exception>
    Stream Open();
}
