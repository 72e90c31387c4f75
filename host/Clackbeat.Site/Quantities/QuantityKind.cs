namespace Clackbeat.Site.Quantities;

/// <summary>What a text with a unit stands for, and the SI unit it is kept in.</summary>
public enum QuantityKind
{
    /// <summary>Length or head [m].</summary>
    Length,

    /// <summary>Gauge pressure [Pa].</summary>
    Pressure,

    /// <summary>Temperature [°C].</summary>
    Temperature,

    /// <summary>Velocity or wave speed [m/s].</summary>
    Velocity,

    /// <summary>Volume [m³].</summary>
    Volume,

    /// <summary>Volume flow [m³/s].</summary>
    Flow,

    /// <summary>Time span [s].</summary>
    Duration,

    /// <summary>Mass [kg].</summary>
    Mass,

    /// <summary>Samples or swings a second [Hz].</summary>
    Frequency,

    /// <summary>Share, written in per cent [1].</summary>
    Share,

    /// <summary>Force [N].</summary>
    Force,

    /// <summary>Stiffness of a spring [N/m].</summary>
    Stiffness,

    /// <summary>Voltage [V].</summary>
    Voltage,

    /// <summary>Electric current [A].</summary>
    Current,

    /// <summary>Electric resistance [Ω].</summary>
    Resistance,

    /// <summary>Capacitance [F].</summary>
    Capacitance,

    /// <summary>Electric charge, such as a battery's [C].</summary>
    Charge,
}

/// <summary>The units a person wants to read.</summary>
public enum Units
{
    /// <summary>m, mm, bar, °C, L/min.</summary>
    Metric,

    /// <summary>US customary: ft, in, psi, °F, US gallons a minute.</summary>
    Us,
}

/// <summary>A unit as factor and offset: SI value = <paramref name="Scale"/> · figure + <paramref name="Offset"/>.</summary>
/// <param name="Scale">SI units in one of this unit.</param>
/// <param name="Offset">SI value of the figure 0.</param>
public readonly record struct LinearUnit(double Scale, double Offset)
{
    /// <summary>The SI value of a figure in this unit.</summary>
    public double ToSi(double figure) => Scale * figure + Offset;
}
