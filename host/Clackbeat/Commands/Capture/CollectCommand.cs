using System.CommandLine;
using System.Globalization;
using Clackbeat.Commands.Describe;
using Clackbeat.Frame;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Collecting;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Records.Sources;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>collect: takes over what a lone logger gathered, from its card or over its line.</summary>
internal static class CollectCommand
{

    public static Command Create(Session session)
    {
        var source = new Argument<string>("CARD-OR-PORT") { Description = "Folder of the card, or serial port of the logger" };
        var folder = new Option<string>("--out") { Description = "Folder to take the bursts over to; made when missing", HelpName = "DIR", Required = true };
        Option<string?> started = StartedOption.Create();
        var site = new Option<string?>("--site") { Description = "Site file to put into each recording; the logger then records as long and as often as its [battery] says", HelpName = "SITE" };
        var delete = new Option<bool>("--delete") { Description = "Take each whole burst off the card once it is safe here" };
        var baud = new Option<int>("--baud") { Description = "Speed of the line", DefaultValueFactory = _ => SerialLine.UsualBaud };
        var command = new ExampleCommand(
            "collect",
            "Take over the bursts a logger recorded by itself, each once, and put them on the calendar",
            "collect /media/card --out bursts --started 2026-05-01T09:00",
            "collect /dev/ttyUSB0 --out bursts")
        {
            source, folder, started, site, delete, baud,
        };
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            try
            {
                SwitchedOn? on = StartedOption.Read(line.GetValue(started));
                RamSite? ram = line.GetValue(site) is { } file ? SiteFile.Load(file) : null;
                IReadOnlyList<RecordingDocument> documents = line.GetValue(site) is { } path ? SiteDocuments.Of(path) : [];
                using IBurstSource from = Open(line.GetRequiredValue(source), line.GetValue(baud), line.GetValue(delete), session.Stop);
                return Run(session, from, line.GetRequiredValue(folder), on, documents, line.GetValue(delete), ram);
            }
            catch (LineException fault)
            {
                session.Say(fault.Message);
                return ExitCode.Failed;
            }
        });
        return command;
    }

    private static int Run(
        Session session,
        IBurstSource source,
        string folder,
        SwitchedOn? started,
        IReadOnlyList<RecordingDocument> documents,
        bool delete,
        RamSite? ram)
    {
        var library = BurstLibrary.Open(folder, TimeProvider.System, session.Stop);
        var collector = new Collector(library, ProgramVersion.Number, documents)
        {
            Looked = entry =>
            {
                if (session.ErrorIsTerminal)
                {
                    session.Error.Write($"\r{Phrases.Say("collect.looking", ("burst", entry.Number))} ");
                }
            },
        };
        CollectSummary summary = collector.Run(source, delete, session.Stop);
        var index = new BurstIndex(folder);
        if (started?.For(summary.Taken) is { } known)
        {
            index.Add(known);
        }

        IReadOnlyList<string> contradicted = index.Write(library);
        int code = Say(session, summary, library, folder, contradicted);
        SayBattery(session, summary, ram);
        return ram is { Battery: { BurstLengthS: { } lengthS, BurstIntervalS: { } intervalS } } && !TellSchedule(session, source, lengthS, intervalS)
            ? ExitCode.DonePartly
            : code;
    }

    // The logger records as the site file says, whatever it was built with.
    private static bool TellSchedule(Session session, IBurstSource source, double lengthS, double intervalS)
    {
        var schedule = new SetSchedule { LengthMilliseconds = Milliseconds(lengthS), IntervalMilliseconds = Milliseconds(intervalS) };
        FactValue[] told = [("length_s", lengthS), ("interval_min", intervalS / 60)];
        if (!schedule.IsInRange)
        {
            session.Warn(Phrases.Say("collect.schedule-range", told));
            return false;
        }

        ScheduleOutcome outcome = source.SetSchedule(schedule, session.Stop);
        string words = Phrases.Say(
            outcome switch
            {
                ScheduleOutcome.Taken => "collect.schedule-taken",
                ScheduleOutcome.Known => "collect.schedule-known",
                ScheduleOutcome.TooOld => "collect.schedule-too-old",
                _ => "collect.schedule-refused",
            },
            told);
        bool isDone = outcome is ScheduleOutcome.Taken or ScheduleOutcome.Known;
        if (isDone)
        {
            session.Say(words);
        }
        else
        {
            session.Warn(words);
        }

        return isDone;
    }

    private static uint Milliseconds(double seconds) => (uint)Math.Clamp(Math.Round(1000 * seconds), 0, uint.MaxValue);

    // Read by the data sheets' resistors and converter: good to a tenth before it was compared with a meter.
    private static void SayBattery(Session session, CollectSummary summary, RamSite? ram)
    {
        if (summary.Taken.Where(b => b.BatteryCounts is not null).MaxBy(b => b.Number) is not { BatteryCounts: { } counts } newest)
        {
            return;
        }

        LoggerSetup setup = ram?.Logger ?? new LoggerSetup();
        double volts = SiteSensing.BatteryVoltsAt(setup, counts);
        session.Say(Phrases.Say("collect.battery", ("volts_v", volts), ("counts", counts), ("burst", newest.Number)));
        if (ram?.Battery.CutOffV is { } cutOff && volts < cutOff + SiteSensing.BatteryMarginV)
        {
            session.Warn(Phrases.Say("collect.battery-low", ("cut_off_v", cutOff)));
        }
    }

    private static int Say(
        Session session, CollectSummary summary, BurstLibrary library, string folder, IReadOnlyList<string> contradicted)
    {
        if (session.ErrorIsTerminal)
        {
            session.Error.Write("\r               \r");
        }

        string Count(int number) => number.ToString(CultureInfo.InvariantCulture);
        Layout.Pairs(session,
        [
            (Phrases.Say("collect.taken"), Phrases.Say("collect.bursts", ("bursts", summary.Taken.Count))),
            (Phrases.Say("collect.known"), Count(summary.Known)),
            (Phrases.Say("collect.deleted"), Count(summary.Deleted)),
        ]);
        foreach (Fact refused in summary.Refused.Concat(library.Unreadable))
        {
            session.Warn(Catalogue.Current.Say(refused));
        }

        foreach (BurstFacts damaged in summary.Taken.Where(b => !b.IsWhole))
        {
            session.Warn(Phrases.Say("collect.damaged", ("burst", damaged.Number), ("samples", damaged.Samples)));
        }

        foreach (string device in contradicted)
        {
            session.Warn(Phrases.Say("collect.contradicted", ("device", device), ("sleep_share", BurstCalendar.SleepShare), ("file", BurstIndex.KnownName), ("folder", folder)));
        }

        session.Say(Phrases.Say("collect.list", ("file", Path.Combine(folder, BurstIndex.FileName))));
        return summary.Damaged + summary.Refused.Count + library.Unreadable.Count > 0 ? ExitCode.DonePartly : ExitCode.Done;
    }

    private static IBurstSource Open(string place, int baud, bool delete, CancellationToken stop)
    {
        if (Directory.Exists(place))
        {
            return BurstFolder.IsCard(place)
                ? new CardSource(place)
                : throw InputException.Of("collect.no-card", ("folder", place));
        }

        if (delete)
        {
            throw InputException.Of("collect.delete-card");
        }

        return PortSource.Open(new SerialLine(place, baud), TimeProvider.System, stop);
    }
}
