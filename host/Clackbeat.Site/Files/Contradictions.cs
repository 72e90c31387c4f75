using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Files;

/// <summary>Keys that can't both be true; no figure of such a site could be trusted.</summary>
internal static class Contradictions
{
    // Bore and wall by tables and by calliper differ by a few per cent; more is a slip of the pen.
    private const double AllowedDiameterShare = 0.05;

    // Mills may stay an eighth under the nominal wall, and makers of plastic as much over the least one.
    private const double AllowedWallShare = 0.15;

    /// <summary>Every contradiction, with the line of the key that is easiest to mend.</summary>
    public static IEnumerable<SiteProblem> Of(RamSite site, SiteValues values)
    {
        if (site.Delivery.HeadM <= site.Supply.HeadM)
        {
            yield return new SiteProblem(
                values.LineOf("delivery", "head"),
                $"[delivery] head ({Length(site.Delivery.HeadM)}) is not above [supply] head ({Length(site.Supply.HeadM)}); "
                + "water would run there without a ram. Measure both from the waste valve's outlet.");
        }

        if (site.DrivePipe.LengthM < site.Supply.HeadM * 0.99)
        {
            yield return new SiteProblem(
                values.LineOf("drive_pipe", "length"),
                $"[drive_pipe] length ({Length(site.DrivePipe.LengthM)}) is less than [supply] head "
                + $"({Length(site.Supply.HeadM)}); no pipe is shorter than the height it spans.");
        }

        foreach (var problem in Diameters(site.DrivePipe, values))
        {
            yield return problem;
        }

        foreach (var problem in SoldSize(site.DrivePipe, values))
        {
            yield return problem;
        }

        var path = SiteSensing.PathOf(site);
        if (path.Converter.FullScaleV <= path.Converter.ZeroV)
        {
            yield return new SiteProblem(
                values.LineOf("logger", "converter_full_scale") ?? values.LineOf("logger", "converter_zero"),
                "[logger] converter_full_scale is not above converter_zero; check which is which.");
        }
        else if (path.UsablePa.High <= path.UsablePa.Low)
        {
            yield return new SiteProblem(
                values.LineOf("sensor", "output") ?? values.LineOf("sensor", "range"),
                "[sensor] output, divider or shunt, and [logger] converter_window leave no pressure that could be read; check all four.");
        }
    }

    // The bore and wall that were measured against those of the pipe sold under this size and class.
    private static IEnumerable<SiteProblem> SoldSize(DrivePipe pipe, SiteValues values)
    {
        if (pipe.NominalSize is not { } size || pipe.PressureClass is not { } named
            || PipeSize.Find(pipe.Material, size, named, null) is not { } sold)
        {
            yield break;
        }

        var line = values.LineOf("drive_pipe", "size");
        if (Math.Abs(pipe.BoreM - PipeSize.BoreM(sold)) > AllowedDiameterShare * pipe.BoreM)
        {
            yield return new SiteProblem(
                line,
                $"[drive_pipe] bore ({Length(pipe.BoreM)}) doesn't agree with size {size}, {named}, whose bore is "
                + $"{Length(PipeSize.BoreM(sold))} ({sold.Name}); measure again, or leave size or bore out.");
        }

        if (pipe.WallM is { } wall && Math.Abs(wall - sold.WallM!.Value) > AllowedWallShare * wall)
        {
            yield return new SiteProblem(
                line,
                $"[drive_pipe] wall ({Length(wall)}) doesn't agree with size {size}, {named}, whose wall is "
                + $"{Length(sold.WallM.Value)} ({sold.Name}); measure again, or leave size or wall out.");
        }
    }

    private static IEnumerable<SiteProblem> Diameters(DrivePipe pipe, SiteValues values)
    {
        if (pipe.OutsideDiameterM is not { } outside)
        {
            yield break;
        }

        var line = values.LineOf("drive_pipe", "outside_diameter");
        if (pipe.BoreM >= outside)
        {
            yield return new SiteProblem(
                values.LineOf("drive_pipe", "bore") ?? line,
                $"[drive_pipe] bore ({Length(pipe.BoreM)}) is not smaller than outside_diameter ({Length(outside)}); "
                + "check which is which.");
        }
        else if (pipe.WallM is { } wall && Math.Abs(pipe.BoreM + 2 * wall - outside) > AllowedDiameterShare * outside)
        {
            yield return new SiteProblem(
                line,
                $"[drive_pipe] outside_diameter ({Length(outside)}) doesn't agree with bore and twice the wall "
                + $"({Length(pipe.BoreM + 2 * wall)}); measure again, or leave one out.");
        }
    }

    private static string Length(double lengthM) => QuantityFormat.Format(QuantityKind.Length, lengthM, Units.Metric);
}
