using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Records.Sharing;
using Clackbeat.Records.Sources;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>share: a record with all that others need to work with it, in one archive.</summary>
internal static class ShareCommand
{
    private const string CalibrationName = "calibration.toml";

    public static Command Create(Session session)
    {
        var input = new RecordInput();
        Option<string?> site = RecordSite.Option();
        var output = new Option<string>("--out") { Description = "The archive to write, .zip", HelpName = "FILE.zip", Required = true };
        var licence = new Option<string?>("--licence")
        {
            Description = "What others may do with the record, such as CC0-1.0 or CC-BY-4.0; left out: they must ask you",
            HelpName = "TEXT",
        };
        var withPlace = new Option<bool>("--with-place") { Description = "Leave the site file as it is, with its names, notes and comments" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "share",
            "Put a record, its site file and its bucket tests into one archive for others to work with",
            "share monday.csv --site my-ram.toml --bucket \"delivery 12 L in 180 s\" --licence CC-BY-4.0 --out monday.zip",
            "analyse monday.zip")
        {
            input.Input, site, output, input.Bucket, licence, withPlace, input.Time, input.Pressure, input.Absolute, overwrite,
        };
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(output);
            RefuseOtherEnding(path);
            string record = line.GetRequiredValue(input.Input);
            RamSite ram = RecordSite.Of(line.GetValue(site), record);
            var contents = new SharedContents
            {
                Say = Catalogue.English.Say,
                Program = $"clackbeat {ProgramVersion.Number}",
                SiteText = SiteText(line.GetValue(site), record, line.GetValue(withPlace)),
                CalibrationText = ram.Sensor.Calibration is { } calibration ? Site.Calibrations.CalibrationText.Of(calibration) : null,
                PlaceLeftOut = !line.GetValue(withPlace),
                Licence = LicenceOf(line.GetValue(licence)),
                BucketTests = input.Buckets(line),
            };
            using var file = OutputFile.Create(path, line.GetValue(overwrite));
            ISampleSource source = RecordFile.Open(session, record, input.Reading(line), ram);
            long samples = session.WithProgress("Packing", progress => SharedWriter.Write(file.Stream, source, contents, progress, session.Stop));
            file.Commit();
            return Tell(session, file.Path, samples, contents, source.Faults);
        });
        return command;
    }

    private static int Tell(Session session, string path, long samples, SharedContents contents, SourceFaults faults)
    {
        session.Say(Phrases.Say("wrote.shared", ("samples", samples), ("tests", Counted(contents.BucketTests.Count)), ("file", path)));
        session.Say(contents.PlaceLeftOut
            ? Phrases.Say("wrote.shared-stripped")
            : Phrases.Say("wrote.shared-whole"));
        if (contents.Licence is null)
        {
            session.Warn(Phrases.Say("wrote.no-licence"));
        }

        if (contents.BucketTests.Count == 0)
        {
            session.Warn(Phrases.Say("wrote.no-bucket-warning"));
        }

        foreach (Fact lack in faults.Lacks)
        {
            session.Warn(Phrases.Say("wrote.what-warning", ("what", lack)));
        }

        return faults.IsPartial || faults.SkippedRows > 0 ? ExitCode.DonePartly : ExitCode.Done;
    }

    private static string Counted(int tests) =>
        tests == 0 ? Phrases.Say("wrote.no-bucket-test") : Phrases.Say("wrote.bucket-tests", ("tests", tests));

    private static string? LicenceOf(string? given) => given is null || !string.IsNullOrWhiteSpace(given)
        ? given?.Trim()
        : throw InputException.Of("option.licence");

    private static string SiteText(string? given, string record, bool withPlace)
    {
        string text = given is not null ? SmallFile.ReadText(given, Fact.Of("input.a-site-file")) : TextInside(record);
        return withPlace ? text : SiteCopy.WithoutPlace(text, CalibrationName);
    }

    // That there is one was settled before.
    private static string TextInside(string record) => SharedRecord.Is(record)
        ? SharedRecord.Open(record).SiteText
        : RecordingScan.Of(record).Sessions.SelectMany(s => s.Documents).Last(d => d.Role == DocumentRole.Site).Text;

    private static void RefuseOtherEnding(string path)
    {
        if (!Path.GetExtension(path).Equals(".zip", StringComparison.OrdinalIgnoreCase))
        {
            throw InputException.Of("input.share-ending", ("file", path));
        }
    }
}
