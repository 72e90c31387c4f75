namespace Clackbeat.Sensing.Calibrating;

/// <summary>What a keeper should know of a calibration.</summary>
public enum CalibrationRemarkCode
{
    /// <summary>A sentence from a file of an earlier program: the text.</summary>
    Stated,

    /// <summary>It contradicts the data sheets and was kept: the text is the reason given.</summary>
    Insisted,

    /// <summary>A point disagrees with the others: the text is the point, the value how far it stands above them, the limit what is expected [Pa].</summary>
    PointAgainstOthers,

    /// <summary>The zero is off the data sheets: value and limit are shares of the span.</summary>
    ZeroOffSheet,

    /// <summary>The span is off the data sheets: value and limit are shares of it.</summary>
    SpanOffSheet,

    /// <summary>The zero is off by an atmosphere: the value is how far it stands above the data sheets' [Pa].</summary>
    Atmosphere,

    /// <summary>A point stands at the converter's end: the text is the point.</summary>
    PointAtEnd,

    /// <summary>A point lies outside the converter's window: the text is the point.</summary>
    PointOutside,

    /// <summary>The window cuts the range: it reaches from the value to the top [Pa].</summary>
    Window,

    /// <summary>The range is few counts wide: the value is their number.</summary>
    FewCounts,

    /// <summary>One pressure sets the zero only.</summary>
    OnePressure,

    /// <summary>The points end low in the range: the value is their highest, the top the end of the range, the limit what is known there [Pa].</summary>
    Reach,

    /// <summary>The supply was not read with every point.</summary>
    SupplyUnread,
}

/// <summary>One thing that a keeper should know of a calibration; the code tells what its figures are.</summary>
/// <param name="Code">What it is.</param>
/// <param name="Text">A point as it was named, or a reason; empty where the code has none.</param>
/// <param name="Value">A figure; 0 where the code has none.</param>
/// <param name="Limit">What is allowed or expected; 0 where the code has none.</param>
/// <param name="Top">An upper end; 0 where the code has none.</param>
public sealed record CalibrationRemark(CalibrationRemarkCode Code, string Text = "", double Value = 0, double Limit = 0, double Top = 0);
