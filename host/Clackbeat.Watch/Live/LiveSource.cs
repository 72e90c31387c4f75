namespace Clackbeat.Watch.Live;

/// <summary>What kind of source the samples come from; the page says so.</summary>
public enum SourceKind
{
    /// <summary>A logger on a port.</summary>
    Logger,

    /// <summary>A ram that exists only in the computer.</summary>
    Virtual,

    /// <summary>A finished record, played again.</summary>
    Replay,
}

/// <summary>Where samples come from. One thread runs it; it calls the pipeline and nothing else.</summary>
public abstract class LiveSource
{
    /// <summary>What the user calls it.</summary>
    public abstract string Name { get; }

    /// <summary>What it is.</summary>
    public abstract SourceKind Kind { get; }

    /// <summary>Sends samples until it has no more or is asked to stop.</summary>
    /// <exception cref="OperationCanceledException">It was asked to stop.</exception>
    public abstract void Run(LivePipeline pipeline, CancellationToken cancellation);
}
