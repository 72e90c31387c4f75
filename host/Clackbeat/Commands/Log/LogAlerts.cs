using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Season.Alerts;
using Clackbeat.Site;
using Clackbeat.Unattended.Alerts;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Settings;
using Clackbeat.Words;

namespace Clackbeat.Commands.Log;

/// <summary>log alerts and log ack: what is up, what was told, and that somebody has seen it.</summary>
internal static class LogAlerts
{
    public static Command Create(Session session)
    {
        var place = new LogPlace();
        var all = new Option<bool>("--all") { Description = "Also those that are over and seen" };
        var test = new Option<bool>("--test") { Description = "Send a test message by every way of the log's file" };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "alerts", "Show what alerts are up, or try whether they reach you", "log alerts --config log.toml", "log alerts --test --config log.toml")
        {
            all, test, json,
        };
        place.AddTo(command);
        command.MayEndWith(ExitCode.Failed);
        command.SetAction(line =>
        {
            if (line.GetValue(test))
            {
                AlertSettings settings = place.Settings(line)?.Alerts ?? throw InputException.Of("logging.test-needs-file");
                return Test(session, [.. Ways.Of(settings), .. Ways.Escalating(settings)]);
            }

            var book = AlertBook.Look(place.Folder(line));
            StoredAlert[] shown = [.. book.Alerts.Where(a => line.GetValue(all) || a.ClearedUtc is null || a.SeenUtc is null)];
            if (line.GetValue(json))
            {
                JsonOut.Write(session, Json(shown));
            }
            else
            {
                Show(session, shown);
            }

            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>log ack: somebody has seen an alert.</summary>
    public static Command CreateAck(Session session)
    {
        var place = new LogPlace();
        var number = new Argument<int>("NUMBER") { Description = "Number of the alert; 'clackbeat log alerts' lists them" };
        var words = new Option<string?>("--note") { Description = "What is being done about it", HelpName = "WORDS" };
        var command = new ExampleCommand("ack", "Note that somebody has seen an alert", "log ack 7 --note \"cleaning the strainer today\" --config log.toml") { number, words };
        place.AddTo(command);
        command.SetAction(line =>
        {
            string folder = place.Folder(line);
            int asked = line.GetRequiredValue(number);
            StoredAlert alert = AlertBook.Look(folder).Alerts.FirstOrDefault(a => a.Number == asked)
                ?? throw InputException.Of("logging.no-such-alert", ("alert", asked));
            SeenNote.Leave(folder, asked, DateTimeOffset.UtcNow, line.GetValue(words)?.Trim() ?? "");
            session.Say(Phrases.Say("logging.alert-seen", ("alert", asked), ("title", alert.Title)));
            return ExitCode.Done;
        });
        return command;
    }

    private static int Test(Session session, IReadOnlyList<IWay> ways)
    {
        if (ways.Count == 0)
        {
            throw InputException.Of("logging.no-way");
        }

        var message = AlertMessage.Test(DateTimeOffset.UtcNow);
        int failed = 0;
        foreach (IWay way in ways)
        {
            try
            {
                way.Send(message, session.Stop).GetAwaiter().GetResult();
                session.Out.WriteLine(Phrases.Say("logging.way-sent", ("way", way.Name)));
            }
            catch (DeliveryException fault)
            {
                failed++;
                session.Out.WriteLine(Phrases.Say("logging.way-failed", ("way", way.Name), ("why", fault.Message)));
            }
        }

        return failed == 0 ? ExitCode.Done : ExitCode.Failed;
    }

    private static void Show(Session session, StoredAlert[] alerts)
    {
        if (alerts.Length == 0)
        {
            session.Out.WriteLine(Phrases.Say("logging.no-alert"));
            return;
        }

        Layout.Table(session, [Phrases.Say("logging.number"), Phrases.Say("logging.alert"), Phrases.Say("logging.since"), Phrases.Say("logging.state"), Phrases.Say("logging.told")], alerts.Select(a => new[]
        {
            a.Number.ToString(CultureInfo.InvariantCulture),
            a.Title,
            AlertText.Time(a.SinceUtc, TimeZoneInfo.Local),
            State(a),
            Told(a),
        }));
    }

    private static string State(StoredAlert alert)
    {
        string state = alert.ClearedUtc is { } over
            ? Phrases.Say("logging.over-since", ("time", AlertText.Time(over, TimeZoneInfo.Local)))
            : Phrases.Say("logging.up");
        return alert.SeenUtc is null ? state : Phrases.Say("logging.seen", ("state", state), ("words", alert.SeenWords)).TrimEnd();
    }

    private static string Told(StoredAlert alert)
    {
        var waiting = alert.Notices.SelectMany(n => n.Ways).Where(w => !w.Value.Done).ToList();
        string[] failed = [.. alert.Notices.SelectMany(n => n.Ways).Where(w => w.Value is { Done: true, Error.Length: > 0 }).Select(w => w.Key).Distinct()];
        return (waiting.Count, failed.Length, alert.Notices.Any(n => n.Ways.Count > 0)) switch
        {
            ( > 0, _, _) => Phrases.Say(
                "logging.waits", ("ways", string.Join("; ", waiting.Select(w => w.Value.Error.Length > 0 ? $"{w.Key} ({w.Value.Error})" : w.Key).Distinct()))),
            (_, > 0, _) => Phrases.Say("logging.given-up", ("ways", string.Join(", ", failed))),
            (_, _, true) => Phrases.Say("logging.yes"),
            _ => Phrases.Say("logging.on-screen"),
        };
    }

    private static JsonObject Json(StoredAlert[] alerts) => new()
    {
        ["schema"] = "clackbeat.alerts/1",
        ["alerts"] = new JsonArray([.. alerts.Select(a => (JsonNode)new JsonObject
        {
            ["alert"] = a.Number,
            ["ram"] = a.Ram,
            ["kind"] = a.Kind.Code(),
            ["since"] = Utc(a.SinceUtc),
            ["raised"] = Utc(a.RaisedUtc),
            ["cleared"] = Utc(a.ClearedUtc),
            ["seen"] = Utc(a.SeenUtc),
            ["note"] = a.SeenWords,
            ["title"] = a.Title,
            ["text"] = a.Text,
            ["delivered"] = a.IsDelivered,
        })]),
    };

    private static string? Utc(DateTimeOffset? time) => time?.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
