namespace Clackbeat.Hydraulics.Pipes;

/// <summary>What a pipe is made of, as far as wave speed, rating and fatigue tell materials apart.</summary>
public enum PipeMaterial
{
    /// <summary>Zinc-coated carbon steel.</summary>
    GalvanisedSteel,

    /// <summary>Plain carbon steel.</summary>
    Steel,

    /// <summary>Austenitic stainless steel.</summary>
    StainlessSteel,

    /// <summary>Copper tube.</summary>
    Copper,

    /// <summary>Ductile iron.</summary>
    DuctileIron,

    /// <summary>Unplasticised polyvinyl chloride.</summary>
    PvcU,

    /// <summary>Oriented polyvinyl chloride.</summary>
    PvcO,

    /// <summary>Polyethylene with a minimum required strength of 10 MPa.</summary>
    Pe100,

    /// <summary>Polyethylene with a minimum required strength of 8 MPa.</summary>
    Pe80,

    /// <summary>North American high-density polyethylene PE4710.</summary>
    Pe4710,

    /// <summary>Acrylonitrile butadiene styrene.</summary>
    Abs,

    /// <summary>Anything else: wave speed and rating must come from the site file.</summary>
    Other,
}
