using Clackbeat.Watch.Live;

namespace Clackbeat.Watch.Tests;

/// <summary>Samples that a test hands over itself.</summary>
internal sealed class MadeUpSource : LiveSource
{
    public override string Name => "made up";

    public override SourceKind Kind => SourceKind.Virtual;

    public override void Run(LivePipeline pipeline, CancellationToken cancellation) => cancellation.WaitHandle.WaitOne();
}
