using Clackbeat.Hydraulics.Rating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
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
                Fact.Of("site.delivery-below-supply", ("delivery_m", Length(site.Delivery.HeadM)), ("supply_m", Length(site.Supply.HeadM))));
        }

        IReadOnlyList<PipePlace> places = PipeBinder.Places(values);
        foreach ((PipeSection section, PipePlace place) in site.DrivePipe.Sections.Zip(places))
        {
            foreach (SiteProblem? problem in Diameters(section, values, place).Concat(SoldSize(section, values, place)))
            {
                yield return problem;
            }
        }

        foreach (SiteProblem problem in StandPipe(site, values))
        {
            yield return problem;
        }

        SignalPath path = SiteSensing.PathOf(site);
        if (path.Converter.FullScaleV <= path.Converter.ZeroV)
        {
            yield return new SiteProblem(
                values.LineOf("logger", "converter_full_scale") ?? values.LineOf("logger", "converter_zero"),
                Fact.Of("site.converter-scale"));
        }
        else if (path.UsablePa.High <= path.UsablePa.Low)
        {
            yield return new SiteProblem(
                values.LineOf("sensor", "output") ?? values.LineOf("sensor", "range"),
                Fact.Of("site.nothing-readable"));
        }
    }

    // The bore and wall that were measured against those of the pipe sold under this size and class.
    private static IEnumerable<SiteProblem> SoldSize(PipeSection pipe, SiteValues values, PipePlace place)
    {
        if (pipe.NominalSize is not { } size || pipe.PressureClass is not { } named
            || PipeSize.Find(pipe.Material, size, named, null) is not { } sold)
        {
            yield break;
        }

        int? line = values.LineOf(place.Table, "size", place.Block);
        if (Math.Abs(pipe.BoreM - PipeSize.BoreM(sold)) > AllowedDiameterShare * pipe.BoreM)
        {
            yield return new SiteProblem(
                line,
                Fact.Of("site.bore-against-size", ("place", place.Said), ("bore_m", Length(pipe.BoreM)), ("size", size), ("named", named), ("sold_m", Length(PipeSize.BoreM(sold))), ("sold", sold.Name)));
        }

        if (pipe.WallM is { } wall && Math.Abs(wall - sold.WallM!.Value) > AllowedWallShare * wall)
        {
            yield return new SiteProblem(
                line,
                Fact.Of("site.wall-against-size", ("place", place.Said), ("wall_m", Length(wall)), ("size", size), ("named", named), ("sold_m", Length(sold.WallM.Value)), ("sold", sold.Name)));
        }
    }

    private static IEnumerable<SiteProblem> Diameters(PipeSection pipe, SiteValues values, PipePlace place)
    {
        if (pipe.OutsideDiameterM is not { } outside)
        {
            yield break;
        }

        int? line = values.LineOf(place.Table, "outside_diameter", place.Block);
        if (pipe.BoreM >= outside)
        {
            yield return new SiteProblem(
                values.LineOf(place.Table, "bore", place.Block) ?? line,
                Fact.Of("site.bore-over-outside", ("place", place.Said), ("bore_m", Length(pipe.BoreM)), ("outside_m", Length(outside))));
        }
        else if (pipe.WallM is { } wall && Math.Abs(pipe.BoreM + 2 * wall - outside) > AllowedDiameterShare * outside)
        {
            yield return new SiteProblem(
                line,
                Fact.Of("site.outside-against-wall", ("place", place.Said), ("outside_m", Length(outside)), ("sum_m", Length(pipe.BoreM + 2 * wall))));
        }
    }

    // A feed pipe without a stand pipe is a drive pipe's section or a mistake; a stand pipe narrower than the drive pipe is none.
    private static IEnumerable<SiteProblem> StandPipe(RamSite site, SiteValues values)
    {
        if (site.Supply.StandPipe is not { } stand)
        {
            if ((values.LineOf("supply", "feed_length") ?? values.LineOf("supply", "feed_bore")) is { } feed)
            {
                yield return new SiteProblem(
                    feed,
                    Fact.Of("site.feed-without-stand-pipe"));
            }
        }
        else if (stand.BoreM < site.DrivePipe.Sections[0].BoreM)
        {
            yield return new SiteProblem(
                values.LineOf("supply", "stand_pipe_bore"),
                Fact.Of("site.stand-pipe-narrow", ("stand_m", Length(stand.BoreM)), ("bore_m", Length(site.DrivePipe.Sections[0].BoreM))));
        }
    }

    private static Quantity Length(double lengthM) => new(QuantityKind.Length, lengthM, Units.Metric);
}
