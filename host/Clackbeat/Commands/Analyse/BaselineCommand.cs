using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>baseline: this record is the ram when it was well; compare with it from now on.</summary>
internal static class BaselineCommand
{
    public static Command Create(Session session)
    {
        var input = new Argument<string>("INPUT") { Description = "Record of the ram while it is well, of about a minute" };
        Option<string> site = CommonOptions.Site();
        var columns = new RecordInput();
        var well = new Option<bool>("--is-well") { Description = "The ram was looked after and is well, whatever the record looks like" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "baseline",
            "Make a record the baseline of its ram: kept beside the site file, and compared with from then on",
            "baseline well.cbrec --site my-ram.toml",
            "baseline after-overhaul.csv --site my-ram.toml --overwrite")
        {
            input, site, columns.Time, columns.Pressure, columns.Absolute, well, overwrite,
        };
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            string sitePath = line.GetRequiredValue(site);
            RamSite ram = SiteFile.Load(sitePath);
            string path = line.GetRequiredValue(input);
            RecordReading reading = columns.Reading(line);
            using var file = OutputFile.Create(SavedBaseline.PathOf(sitePath), line.GetValue(overwrite));
            RamAnalysis analysis = RecordInput.Analyse(session, path, reading, ram);
            Refuse(path, analysis, line.GetValue(well));
            SavedBaseline.Save(session, RecordFile.Open(session, path, reading, ram), file);
            session.Say(Phrases.Say("wrote.baseline", ("beats", analysis.Beats.Count), ("ram", ram.Name), ("file", file.Path)));
            return RecordInput.Outcome(session, analysis);
        });
        return command;
    }

    private static void Refuse(string path, RamAnalysis analysis, bool isWell)
    {
        Finding? first = analysis.Diagnosis.Count > 0 ? analysis.Diagnosis[0] : null;
        switch (BaselineRules.Lack(analysis, isWell))
        {
            case BaselineLack.Beats:
                throw InputException.Of("option.baseline-short", ("file", path), ("beats", analysis.Beats.Count), ("least", BaselineRules.LeastBeats));
            case BaselineLack.Sensor:
                throw InputException.Of("option.baseline-sensor", ("file", path), ("evidence", string.Join(' ', Catalogue.Current.Say(first!.Evidence))));
            case BaselineLack.Ill:
                throw InputException.Of("option.baseline-ill", ("file", path), ("condition", Catalogue.Current.Condition(first!.Condition)), ("odds", 20 * first.Probability));
        }
    }
}
