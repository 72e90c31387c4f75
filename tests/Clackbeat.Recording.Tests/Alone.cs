namespace Clackbeat.Recording.Tests;

/// <summary>Tests that measure memory run with nothing beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
