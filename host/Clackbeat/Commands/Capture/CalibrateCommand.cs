using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

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
            "calibrate --site my-ram.toml --point air 194 2306 --point \"5 m\" 224 2306 --out calibration.toml")
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
                ? Phrases.Say("calibrate.not-written")
                : Phrases.Say("wrote.file", ("file", file.Path)));
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
            throw file is not null && !File.Exists(file) ? InputException.Of("calibrate.no-points-file", ("file", file)) : InputException.Of("calibrate.no-point");
        }

        bool supplyIsRead = points.All(p => p.SupplyCounts is not null);
        ChainKnowledge knowledge = SiteSensing.KnowledgeOf(ram, supplyIsRead);
        CalibrationRemark? insisted = Insisted(line.GetValue(options.Insist), DataSheetContradiction.Worst(path, points, knowledge), ram.Units);
        Calibration made = Calibrator.Make(
            path,
            points,
            knowledge,
            DateOnly.FromDateTime(DateTime.Now));
        return insisted is null ? made : made with { Warnings = [insisted, .. made.Warnings] };
    }

    // Whoever insists leaves the reason in the file, for those who wonder about the figures later.
    private static CalibrationRemark? Insisted(string? reason, DataSheetContradiction? found, Units units) => (found, reason) switch
    {
        (null, _) => null,
        (not null, { } why) when !string.IsNullOrWhiteSpace(why) =>
            new CalibrationRemark(CalibrationRemarkCode.Insisted, why.Trim()),
        _ => throw InputException.Of("calibrate.refused", ("contradiction", ContradictionFacts.Of(found, units))),
    };
}
