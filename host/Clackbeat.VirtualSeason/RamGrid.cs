using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualSeason;

/// <summary>
/// The virtual ram run once at every corner of supply level, wear of the waste valve's rubber and water temperature, and
/// read between them: a year of it takes seconds and still is that ram's year.
/// </summary>
internal sealed class RamGrid
{
    private static readonly double[] HeadShares = [0.7, 0.8, 0.9, 1.0, 1.1];
    private static readonly double[] Wears = [0, 0.3, 0.6];
    private static readonly double[] TemperaturesC = [2, 20];
    private readonly RamPoint[] _points;
    private readonly RamPoint _sticking;
    private readonly RamPoint _well;

    private RamGrid(RamPoint[] points, RamPoint well, RamPoint sticking)
    {
        _points = points;
        _well = well;
        _sticking = sticking;
    }

    /// <summary>Lowest and highest supply head, as shares of the site's.</summary>
    public static (double Low, double High) HeadRange => (HeadShares[0], HeadShares[^1]);

    /// <summary>Runs the corners, on all cores.</summary>
    public static RamGrid Run(RamSite site, CancellationToken stop = default)
    {
        RamDesign design = RamDesigner.Design(site);
        RamParameters[] waters = [.. TemperaturesC.Select(t => design.Ram with { Water = Water(site, t) })];
        var points = new RamPoint[(HeadShares.Length * Wears.Length * TemperaturesC.Length) + 2];
        Parallel.For(0, points.Length, new ParallelOptions { CancellationToken = stop }, i => points[i] = i < points.Length - 2
            ? Corner(site, design, waters, i)
            : RamPoint.Run(site, design.Ram, design.Sensor, i == points.Length - 2 ? Fault.None : Stuck));
        return new RamGrid(points[..^2], points[^2], points[^1]);
    }

    /// <summary>What the ram does.</summary>
    /// <param name="headShare">Supply head as a share of the site's.</param>
    /// <param name="wear">Severity of the leak past the waste valve's rubber, 0 to 0.6.</param>
    /// <param name="temperatureC">Water temperature [°C].</param>
    /// <param name="sticking">The waste valve hangs in some beats.</param>
    public RamPoint At(double headShare, double wear, double temperatureC, bool sticking)
    {
        (int h, double byHead) = Place(HeadShares, headShare);
        (int w, double byWear) = Place(Wears, wear);
        double byWarmth = Place(TemperaturesC, temperatureC).Share;
        RamPoint Warm(int head, int leak) => _points[Index(head, leak, 0)].Towards(_points[Index(head, leak, 1)], byWarmth);
        RamPoint Leaking(int head) => Warm(head, w).Towards(Warm(head, w + 1), byWear);
        RamPoint point = Leaking(h).Towards(Leaking(h + 1), byHead);
        return sticking
            ? point with
            {
                RatePerMin = point.RatePerMin * _sticking.RatePerMin / _well.RatePerMin,
                DeliveredM3PerS = point.DeliveredM3PerS * _sticking.DeliveredM3PerS / _well.DeliveredM3PerS,
                WasteM3PerS = point.WasteM3PerS * _sticking.WasteM3PerS / _well.WasteM3PerS,
                PeakPa = point.PeakPa * _sticking.PeakPa / _well.PeakPa,
            }
            : point;
    }

    private static Fault Stuck { get; } = new() { Condition = RamCondition.WasteValveSticking, Severity = 0.8 };

    private static RamPoint Corner(RamSite site, RamDesign design, RamParameters[] waters, int i)
    {
        (int head, int wear, int water) = (i / (Wears.Length * TemperaturesC.Length), i / TemperaturesC.Length % Wears.Length, i % TemperaturesC.Length);
        RamParameters ram = waters[water];
        ram = ram with { Supply = ram.Supply with { HeadM = ram.Supply.HeadM * HeadShares[head] } };
        return RamPoint.Run(site, ram, design.Sensor, new Fault { Condition = RamCondition.WasteValveLeaking, Severity = Wears[wear] });
    }

    private static WaterParameters Water(RamSite site, double temperatureC) =>
        RamDesigner.Design(site with { Supply = site.Supply with { WaterTemperatureC = temperatureC } }).Ram.Water;

    private static int Index(int head, int wear, int water) => (((head * Wears.Length) + wear) * TemperaturesC.Length) + water;

    private static (int Cell, double Share) Place(double[] axis, double value)
    {
        int cell = 0;
        while (cell < axis.Length - 2 && value > axis[cell + 1])
        {
            cell++;
        }

        return (cell, Math.Clamp((value - axis[cell]) / (axis[cell + 1] - axis[cell]), 0, 1));
    }
}
