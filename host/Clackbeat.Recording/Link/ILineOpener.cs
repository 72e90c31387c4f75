namespace Clackbeat.Recording.Link;

/// <summary>Opens a line to a logger, and again after it was cut.</summary>
public interface ILineOpener
{
    /// <summary>What the user calls it.</summary>
    string Name { get; }

    /// <summary>Opens it; disposing the stream closes it.</summary>
    /// <exception cref="LineException">It can't be opened.</exception>
    Stream Open();
}
