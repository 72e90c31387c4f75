namespace Clackbeat.Hydraulics.Fatigue;

/// <summary>
/// Two ways of counting that agree once the rest is counted as half cycles (C. McInnes and P. Meehan, Int. J. Fatigue 30
/// (2008) 547).
/// </summary>
public enum RainflowConvention
{
    /// <summary>ASTM E1049-85 §5.4.4: three points; cycles that hold the start of the history are halves.</summary>
    AstmThreePoint,

    /// <summary>Four points: an inner range no larger than its two neighbours is a whole cycle.</summary>
    FourPoint,
}
