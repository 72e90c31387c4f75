using System.Globalization;
using System.Text;
using Clackbeat.Planning.Pipework;
using Clackbeat.Planning.Wishes;
using Clackbeat.Sensing.Choosing;
using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Planning.Plans;

/// <summary>Writes a planned ram as a site file, which every other command takes.</summary>
internal static class SiteDraft
{
    private const string Name = "plan.toml";

    // Large enough for any first reading of the file; the range to buy takes its place at once.
    private const double FirstRangePa = 25e5;

    internal static (RamSite Site, string Text) Of(
        PlanWish wish, DriveSize size, double lengthM, DeliveryMain main, double? vesselM3)
    {
        RamSite first = SiteFile.Parse(Write(wish, size, lengthM, main, vesselM3, FirstRangePa), Name);
        double ceiling = ExpectedFigures.For(first).Ram.PeakCeilingPa.High;
        string? text = Write(wish, size, lengthM, main, vesselM3, SensorChoice.RangePa(ceiling) ?? ceiling);
        return (SiteFile.Parse(text, Name), text);
    }

    private static string Write(
        PlanWish wish, DriveSize size, double lengthM, DeliveryMain main, double? vesselM3, double rangePa)
    {
        var text = new StringBuilder();
        Line(text, $"# A planned ram, not one that was measured: put the built one's figures in their place.");
        Line(text, $"[site]");
        Line(text, $"name = \"Planned ram\"");
        Line(text, $"");
        Line(text, $"[supply]");
        Line(text, $"head = \"{wish.SupplyHeadM:0.###} m\"");
        Line(text, $"water_temperature = \"{wish.WaterTemperatureC:0.#} °C\"");
        Line(text, $"");
        Line(text, $"[drive_pipe]");
        Line(text, $"material = \"{MaterialNames.Of(size.Pipe.Material)}\"");
        Line(text, $"size = \"{size.Pipe.Size}\"");
        Line(text, $"class = \"{size.Pipe.Class}\"");
        Line(text, $"length = \"{lengthM:0.##} m\"");
        Line(text, $"bore = \"{1000 * size.BoreM:0.##} mm\"");
        Line(text, $"wall = \"{1000 * size.Pipe.WallM!.Value:0.##} mm\"");
        Line(text, $"");
        Line(text, $"[delivery]");
        Line(text, $"head = \"{wish.LiftM:0.###} m\"");
        Line(text, $"pipe_length = \"{main.LengthM:0.#} m\"");
        Line(text, $"pipe_bore = \"{1000 * main.BoreM:0.#} mm\"");
        if (vesselM3 is { } vessel)
        {
            Line(text, $"");
            Line(text, $"[air_vessel]");
            Line(text, $"volume = \"{1000 * vessel:0.##} L\"");
        }

        Line(text, $"");
        Line(text, $"[sensor]");
        Line(text, $"range = \"0 kPa to {rangePa / 1000:0} kPa\"");
        Line(text, $"height = \"0 m\"");
        return text.ToString();
    }

    private static void Line(StringBuilder text, FormattableString line) =>
        text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
