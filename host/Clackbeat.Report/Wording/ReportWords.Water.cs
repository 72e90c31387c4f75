using Clackbeat.Signal.Figures;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <content>Words about the water: where it goes and what it costs.</content>
internal static partial class ReportWords
{
    public static string EnergyTitle => Phrases.Say("report.where-energy-beat-goes");
    public static string VolumeTitle => Phrases.Say("report.water-delivered-every-beat");

    public static Rich EnergyCaption =>
        Phrases.Say("report.supplys-water-gives-energy-falls");

    public static Rich VolumeCaption =>
        Phrases.Say("report.worked-out-pressure-beat-beat");

    public static Rich WaterLead =>
        Phrases.Say("report.no-flow-meter-used-drive");

    public static Rich ExpectedLead =>
        Phrases.Say("report.expected-means-what-ram-sites");

    /// <summary>Whether a figure lies in the band that is usual for such a site.</summary>
    public static Rich Against(Figure? figure, double low, double high) => figure switch
    {
        null => NotGiven,
        { } f when f.Value + f.U < low => Phrases.Say("report.below"),
        { IsUpperBound: true } f when f.Value - f.U > high => Phrases.Say("report.most-may-above"),
        { IsUpperBound: true } => Phrases.Say("report.most-may-expected"),
        { } f when f.Value - f.U > high => Phrases.Say("report.above"),
        _ => Phrases.Say("report.as-expected"),
    };
}
