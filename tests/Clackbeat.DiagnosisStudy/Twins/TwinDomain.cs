using Clackbeat.Hydraulics;
using Clackbeat.VirtualRam.Field;

namespace Clackbeat.DiagnosisStudy.Twins;

/// <summary>Which rams the twin is held against.</summary>
internal enum TwinDomain
{
    /// <summary>Plugs at a stop, by weight or by spring; one pipe from an open tank.</summary>
    Plain,

    /// <summary>The same with plugs on a soft spring, which have no stop.</summary>
    SoftSpring,

    /// <summary>Whatever stands in the field: flaps, sections, stand pipes, snifters, slow loggers.</summary>
    Usual,
}

/// <summary>The ends within which the rams of a domain are drawn.</summary>
internal static class TwinDomains
{
    // Pipes that creep and rub, a site file and a sensor that are a little wrong, as everywhere in the field.
    private static readonly FieldDomain PlainRams = FieldDomain.Usual with
    {
        LiftOverFall = new Band(4, 10),
        LengthM = new Band(6, 25),
        SectionsShare = 0,
        StandPipeShare = 0,
        SnifterShare = 0,
        SlowSensorShare = 0,
        SilentShare = 0,
        FloatingShare = (0, 0),
        RatesHz = [1000],
    };

    /// <summary>Ends and shares of a domain.</summary>
    public static FieldDomain Of(TwinDomain domain) => domain switch
    {
        TwinDomain.Plain => PlainRams,
        TwinDomain.SoftSpring => PlainRams with { FloatingShare = (0, 1) },
        _ => FieldDomain.Usual,
    };
}
