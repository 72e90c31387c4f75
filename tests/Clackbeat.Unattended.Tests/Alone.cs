namespace Clackbeat.Unattended.Tests;

/// <summary>Tests that count what the whole process holds: beside others, theirs would be counted too.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
