using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site;
using Clackbeat.Site.Check;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands.Rate;

/// <summary><c>rating</c>: the pipe's rating, surge and fatigue check without a record.</summary>
internal static class RatingCommand
{
    // The fastest rams known beat some 270 times a minute; ten times that is a slip of the pen.
    private const double MostBeatsPerMin = 3000;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        Option<string> site = CommonOptions.Site();
        Option<string> peak = Pressure("--peak", "Highest pressure of a beat, judged as it stands");
        Option<string> trough = Pressure("--trough", "Lowest pressure of a beat, minus for suction");
        var beats = new Option<string>("--beats-per-min") { Description = "Beats a minute, for fatigue", HelpName = "NUMBER" };
        var helps = new Option<bool>("--what-helps")
        {
            Description = "Have a virtual ram of this site try changes, and show peak, margin and life before and after",
        };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "rating",
            "Judge whether the drive pipe can take its beats: rating, surge, suction and fatigue. "
            + "Exit code 0: within, or no verdict for want of data; 4: near or over, or fatigue cracks the pipe before its design life by every curve",
            "rating --site my-ram.toml --peak \"412 kPa\" --trough \"-5 kPa\" --beats-per-min 50",
            "rating --site my-ram.toml --peak \"60 psi\" --what-helps",
            "rating --site my-ram.toml --peak \"60 psi\" --json")
        {
            site, peak, trough, beats, helps, json,
        };
        command.MayEndWith(ExitCode.NotWithin);
        command.SetAction(line =>
        {
            RamSite ram = SiteFile.Load(line.GetRequiredValue(site));
            double? peakPa = Read(peak, line);
            PipeLoad load = SiteLoad.Of(ram) with
            {
                PeakPa = peakPa,
                // A peak that a person states is the question itself; what a record leaves open is the analysis' matter.
                PeakUncertaintyPa = peakPa is null ? null : 0,
                TroughPa = Read(trough, line),
                BeatsPerMin = ReadBeats(beats.Name, line.GetValue(beats)),
            };
            if (load.PeakPa <= load.TroughPa)
            {
                throw InputException.Of("option.peak-trough");
            }

            PipeCheck check = PipeRating.Check(load);
            RemedyTable? remedies = line.GetValue(helps) ? PipeAdvice.OnRequest(session, ram) : null;
            if (line.GetValue(json))
            {
                JsonOut.Write(session, RatingJson.Of(ram, load, check, remedies));
            }
            else
            {
                RatingText.Write(session, ram, load, check, remedies);
            }

            return Outcome(check);
        });
        return command;
    }

    private static int Outcome(PipeCheck check) =>
        check.Verdict is PipeVerdict.Near or PipeVerdict.Over || check.FatigueVerdict == PipeVerdict.Over ? ExitCode.NotWithin : ExitCode.Done;

    private static Option<string> Pressure(string name, string description) =>
        new(name) { Description = description, HelpName = "PRESSURE" };

    private static double? Read(Option<string> option, ParseResult line)
    {
        if (line.GetValue(option) is not { } text)
        {
            return null;
        }

        return QuantityText.TryParse(QuantityKind.Pressure, text, out double pressurePa, out Fact? problem)
            ? pressurePa
            : throw InputException.Of("option.wrong", ("option", option.Name), ("why", problem));
    }

    private static double? ReadBeats(string name, string? text)
    {
        if (text is null)
        {
            return null;
        }

        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double rate) && rate is > 0 and <= MostBeatsPerMin
            ? rate
            : throw InputException.Of("option.beat-rate", ("option", name), ("text", text));
    }
}
