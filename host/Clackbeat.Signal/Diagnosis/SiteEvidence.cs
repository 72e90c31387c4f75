using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// Which features may speak at a site when there is no baseline. A wall of plastic creeps (D. Covas et al., J. Hydraul. Res. 42, 2004, 516): its
/// waves are slower than the elastic wall's and their echoes late and faint in a well ram, by how much only the pipe itself tells. In a pipe of
/// several sections echoes come from the joints too. A late echo is then no evidence for air.
/// </summary>
internal static class SiteEvidence
{
    private static readonly Feature[] OfEchoes = [Feature.Echo, Feature.EchoAway, Feature.WaveSpeed];

    /// <summary>The features that are evidence at a site.</summary>
    public static Comparison Of(Comparison record, RamSite site) => !HasSharpEchoes(site)
        ? record with { Features = record.Features.Where(f => !OfEchoes.Contains(f.Key)).ToDictionary() }
        : record;

    private static bool HasSharpEchoes(RamSite site) =>
        !site.DrivePipe.IsMixed && site.DrivePipe.Sections.All(s => WallCreep.TryGet(s.Material) is null);
}
