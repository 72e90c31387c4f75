namespace Clackbeat.VirtualRam.Design;

/// <summary>How much of a real pipe a designed ram has.</summary>
public enum PipeDetail
{
    /// <summary>Walls that creep and unsteady friction, as real pipes have.</summary>
    Real,

    /// <summary>Neither: for holding a method against the equations it is made for.</summary>
    Elastic,
}
