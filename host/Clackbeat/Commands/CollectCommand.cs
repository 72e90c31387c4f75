using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Protocol;
using Clackbeat.Recording.Collecting;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;

namespace Clackbeat.Commands;

/// <summary>collect: takes over what a lone logger gathered, from its card or over its line.</summary>
internal static class CollectCommand
{
    // A time told to the minute or the hour may be off by half of that, and watches differ.
    private const double MinuteUncertaintyS = 60;
    private const double SecondUncertaintyS = 5;

    public static Command Create(Session session)
    {
        var source = new Argument<string>("CARD-OR-PORT") { Description = "Folder of the card, or serial port of the logger" };
        var folder = new Option<string>("--out") { Description = "Folder to take the bursts over to; made when missing", HelpName = "DIR", Required = true };
        var started = new Option<string?>("--started")
        {
            Description = "When the logger was switched on for the first of the new bursts, by your local time; sharpens the calendar",
            HelpName = "2026-05-01T09:00",
        };
        var site = new Option<string?>("--site") { Description = "Site file to put into each recording", HelpName = "SITE" };
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
        command.SetAction(line =>
        {
            try
            {
                DateTimeOffset? on = Started(line.GetValue(started));
                IReadOnlyList<RecordingDocument> documents = line.GetValue(site) is { } path ? SiteDocuments.Of(path) : [];
                using IBurstSource from = Open(line.GetRequiredValue(source), line.GetValue(baud), line.GetValue(delete), session.Stop);
                return Run(session, from, line.GetRequiredValue(folder), on, line.GetValue(started), documents, line.GetValue(delete));
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
        DateTimeOffset? started,
        string? startedText,
        IReadOnlyList<RecordingDocument> documents,
        bool delete)
    {
        BurstLibrary library = BurstLibrary.Open(folder, TimeProvider.System, session.Stop);
        var collector = new Collector(library, ProgramVersion.Number, documents)
        {
            Looked = entry =>
            {
                if (session.ErrorIsTerminal)
                {
                    session.Error.Write($"\rburst {entry.Number} ");
                }
            },
        };
        CollectSummary summary = collector.Run(source, delete, session.Stop);
        var index = new BurstIndex(folder);
        if (started is { } on && First(summary.Taken) is { } first)
        {
            index.Add(new KnownTime(first.Header.Device, first.Number, on, Uncertainty(startedText!)));
        }

        IReadOnlyList<string> contradicted = index.Write(library);
        return Say(session, summary, library, folder, contradicted);
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
            ("Taken over", $"{Count(summary.Taken.Count)} bursts"),
            ("There already", Count(summary.Known)),
            ("Taken off the card", Count(summary.Deleted)),
        ]);
        foreach (string refused in summary.Refused.Concat(library.Unreadable))
        {
            session.Warn(refused);
        }

        foreach (BurstFacts damaged in summary.Taken.Where(b => !b.IsWhole))
        {
            session.Warn(string.Create(
                CultureInfo.InvariantCulture,
                $"burst {damaged.Number} has no end or damaged frames; its {damaged.Samples} good samples were taken, and it stays on the card."));
        }

        foreach (string device in contradicted)
        {
            session.Warn($"the times told for logger {device} can't all be right: its sleep clock would have to be off by more than "
                + $"{100 * BurstCalendar.SleepShare:0.0} %. They were left out; see {BurstIndex.KnownName} in {folder}.");
        }

        session.Say($"The list with calendar and uncertainties is {Path.Combine(folder, BurstIndex.FileName)}");
        return summary.Damaged + summary.Refused.Count + library.Unreadable.Count > 0 ? ExitCode.DonePartly : ExitCode.Done;
    }

    private static IBurstSource Open(string place, int baud, bool delete, CancellationToken stop)
    {
        if (Directory.Exists(place))
        {
            return new CardSource(place);
        }

        if (delete)
        {
            throw new InputException("--delete works on a card only: a logger takes no command to delete. Put its card into this computer.");
        }

        return PortSource.Open(new SerialLine(place, baud), TimeProvider.System, stop);
    }

    // Switching on is what wakes a logger by power; a burst that followed its own sleep tells nothing of it.
    private static BurstFacts? First(IReadOnlyList<BurstFacts> taken) =>
        taken.OrderBy(b => b.Number).FirstOrDefault(b => b.Wake == WakeCauses.Power) ?? taken.OrderBy(b => b.Number).FirstOrDefault();

    private static double Uncertainty(string text) => text.Count(c => c == ':') >= 2 ? SecondUncertaintyS : MinuteUncertaintyS;

    private static DateTimeOffset? Started(string? text)
    {
        if (text is null)
        {
            return null;
        }

        return DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeLocal, out DateTimeOffset time)
            ? time
            : throw new InputException($"--started: '{text}' is no date and time; write it as 2026-05-01T09:00.");
    }
}
