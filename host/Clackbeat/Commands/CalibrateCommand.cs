using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands;

/// <summary>calibrate: known pressures against counts, typed or read from a live logger.</summary>
internal static class CalibrateCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        CalibrateOptions options = new();
        Option<string> site = CommonOptions.Site();
        Option<bool> overwrite = CommonOptions.Overwrite();
        Option<bool> json = CommonOptions.Json();
        ExampleCommand command = new(
            "calibrate",
            "Calibrate the pressure sensor: open air, standing water columns, a gauge, a meter",
            "calibrate /dev/ttyUSB0 --site my-ram.toml --points points.csv --reference \"2 m\"",
            "calibrate --site my-ram.toml --points points.csv --out calibration.toml",
            "calibrate --site my-ram.toml --point air 134 2305 --point \"5 m\" 256 2301 --out calibration.toml")
        {
            site,
        };
        options.AddTo(command);
        command.Add(overwrite);
        command.Add(json);
        command.SetAction(line =>
        {
            RamSite ram = SiteFile.Load(line.GetRequiredValue(site));
            string? target = line.GetValue(options.Out);
            using OutputFile? file = target is null ? null : OutputFile.Create(target, line.GetValue(overwrite));
            Calibration calibration = Calibrate(session, line, options, ram);
            file?.WriteAndCommit(writer => writer.Write(CalibrationText.Of(calibration)));
            if (line.GetValue(json))
            {
                JsonOut.Write(session, CalibrationJson.Of(calibration));
            }
            else
            {
                CalibrationReport.Write(session, calibration, ram.Units);
            }

            session.Say(file is null
                ? "Nothing was written. Add --out FILE.toml to keep this calibration."
                : $"Wrote {file.Path}");
            return ExitCode.Done;
        });
        return command;
    }

    private static Calibration Calibrate(Session session, ParseResult line, CalibrateOptions options, RamSite ram)
    {
        SignalPath path = SiteSensing.PathOf(ram);
        ReferenceMeans means = options.Means(line, ram);
        List<CalibrationPoint> points = [.. options.TypedPoints(line, path, means)];
        string? file = line.GetValue(options.Points);
        if (file is not null && File.Exists(file))
        {
            points.AddRange(PointsFile.Read(file, path, means));
        }

        if (line.GetValue(options.Port) is { } port)
        {
            points.Add(options.LivePoint(session, line, port, path, means, file));
        }
        else
        {
            options.RefuseReferenceWithoutPort(line);
        }

        if (points.All(p => p.Reference == ReferenceKind.Electric))
        {
            throw new InputException(
                file is not null && !File.Exists(file)
                    ? $"{file}: there is no such file yet. Take a first point with: clackbeat calibrate PORT --reference air --points {file}"
                    : "There is no point on pressure. Give at least --point air COUNTS, or a port and --reference air.");
        }

        bool supplyIsRead = points.All(p => p.SupplyCounts is not null);
        return Calibrator.Make(
            path,
            points,
            SiteSensing.KnowledgeOf(ram, supplyIsRead),
            DateOnly.FromDateTime(DateTime.Now),
            pressurePa => QuantityFormat.Format(QuantityKind.Pressure, pressurePa, ram.Units));
    }
}
