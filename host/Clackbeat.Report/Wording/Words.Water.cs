using Clackbeat.Signal.Analysis;

namespace Clackbeat.Report.Wording;

/// <content>Words about the water: where it goes and what it costs.</content>
internal static partial class Words
{
    public const string EnergyTitle = "Where the energy of a beat goes";
    public const string VolumeTitle = "Water delivered by every beat";

    public static readonly Rich EnergyCaption =
        "The supply's water gives its energy as it falls. Each bar begins where the one above it ended, and together they make "
        + "what was drawn. The last one is what is left over: waves that die out, the recoil, and the errors of all the others.";

    public static readonly Rich VolumeCaption =
        "Worked out from the pressure, beat by beat. A level line means that every beat lifts alike.";

    public static readonly Rich WaterLead =
        "No flow meter was used. The drive pipe itself measures: how the pressure slows and speeds the water in it tells how much "
        + "passed. What runs back through a leaking valve is not seen this way.";

    public static readonly Rich ExpectedLead =
        "Expected means: what a ram with this site's heads and pipe usually does. It is a wide band, for the valves are not known.";

    /// <summary>Whether a figure lies in the band that is usual for such a site.</summary>
    public static Rich Against(Figure? figure, double low, double high) => figure switch
    {
        null => NotGiven,
        { } f when f.Value + f.U < low => "below",
        { } f when f.Value - f.U > high => "above",
        _ => "as expected",
    };
}
