using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Report.Export;
using Clackbeat.Report.Guides;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Guide;

/// <summary>guide: the keeper's guides, each one page in the reader's language.</summary>
internal static class GuideCommand
{
    private const string UsualSiteFile = "my-ram.toml";
    private const string Markdown = ".md";
    private const string Pictures = "images/signatures";

    public static Command Create(Session session) => new Command("guide", "Write a guide for the keeper, one page to read and print in your language")
    {
        Faults(session),
        Calibrate(session),
    };

    private static ExampleCommand Faults(Session session)
    {
        var options = new Options("The guide to write: .html, .pdf, or .md with its pictures beside it");
        var command = new ExampleCommand(
            "faults",
            "How each fault looks in the beat, what to check first, how to repair it, and what the next record should show",
            "guide faults --site my-ram.toml --language es --out faults.html",
            "guide faults --us --out faults.pdf");
        options.AddTo(command);
        command.SetAction(line =>
        {
            (RamSite? site, string _, Units units, string path, bool overwrite) = options.Read(line);
            bool isMarkdown = path.EndsWith(Markdown, StringComparison.OrdinalIgnoreCase);
            ReportFormat format = isMarkdown ? default : ReportFormats.FromPath(path);
            using var file = OutputFile.Create(path, overwrite);
            FaultPortraits portraits = session.WithProgress(Phrases.Say("wrote.file", ("file", path)), _ => VirtualPortraits.Make(site, session.Stop));
            if (isMarkdown)
            {
                WriteMarkdown(file, portraits, overwrite);
            }
            else
            {
                GuideWriter.Faults(file.Stream, format, portraits, units, DateTimeOffset.Now);
            }

            return Commit(session, file);
        });
        return command;
    }

    private static ExampleCommand Calibrate(Session session)
    {
        var options = new Options("The guide to write: .html, .pdf or .md");
        var command = new ExampleCommand(
            "calibrate",
            "How to calibrate the sensor, step by step with the commands to type",
            "guide calibrate --site my-ram.toml --language fr --out calibration.html",
            "guide calibrate --us --out calibration.pdf");
        options.AddTo(command);
        command.SetAction(line =>
        {
            (RamSite? site, string siteFile, Units units, string path, bool overwrite) = options.Read(line);
            bool isMarkdown = path.EndsWith(Markdown, StringComparison.OrdinalIgnoreCase);
            ReportFormat format = isMarkdown ? default : ReportFormats.FromPath(path);
            using var file = OutputFile.Create(path, overwrite);
            if (isMarkdown)
            {
                file.Stream.Write(System.Text.Encoding.UTF8.GetBytes(GuideWriter.CalibrationMarkdown(siteFile)));
            }
            else
            {
                GuideWriter.Calibration(file.Stream, format, site, siteFile, units, DateTimeOffset.Now);
            }

            return Commit(session, file);
        });
        return command;
    }

    /// <summary>Writes the field guide as Markdown, and its pictures into a folder beside it.</summary>
    internal static void WriteMarkdown(OutputFile file, FaultPortraits portraits, bool overwrite)
    {
        (string page, IReadOnlyList<(string Path, string Svg)> pictures) = GuideWriter.FaultsMarkdown(portraits, Pictures);
        file.Stream.Write(System.Text.Encoding.UTF8.GetBytes(page));
        string folder = Path.GetDirectoryName(file.Path)!;
        Directory.CreateDirectory(Path.Combine(folder, Pictures));
        foreach ((string picture, string svg) in pictures)
        {
            OutputFile.WriteText(Path.Combine(folder, picture), svg, overwrite);
        }
    }

    private static int Commit(Session session, OutputFile file)
    {
        file.Commit();
        session.Say(Phrases.Say("wrote.file", ("file", file.Path)));
        return ExitCode.Done;
    }

    private sealed class Options(string outDescription)
    {
        private readonly Option<string?> _site = new("--site") { Description = "Site file of your ram; left out: a ram of our own invention", HelpName = "SITE" };
        private readonly Option<bool> _us = new("--us") { Description = "US units first; left out: the site file's" };
        private readonly Option<string> _out = new("--out") { Description = outDescription, HelpName = "FILE", Required = true };
        private readonly Option<bool> _overwrite = CommonOptions.Overwrite();

        public void AddTo(Command command)
        {
            foreach (Option option in new Option[] { _site, _us, _out, _overwrite })
            {
                command.Add(option);
            }
        }

        public (RamSite? Site, string SiteFile, Units Units, string Path, bool Overwrite) Read(ParseResult line)
        {
            string? file = line.GetValue(_site);
            RamSite? site = file is null ? null : SiteFile.Load(file);
            Units units = line.GetValue(_us) ? Units.Us : site?.Units ?? Units.Metric;
            return (site, file is null ? UsualSiteFile : Path.GetFileName(file), units, line.GetRequiredValue(_out), line.GetValue(_overwrite));
        }
    }
}
