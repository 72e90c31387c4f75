using System.CommandLine;
using System.Globalization;
using System.IO.Ports;
using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>ports: which serial ports there are, and on which of them a logger answers.</summary>
internal static class PortsCommand
{
    // A logger that works alone listens every 300 ms after a sleep; one that streams answers within a frame.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    public static Command Create(Session session)
    {
        var only = new Argument<string[]>("PORT") { Description = "Ask only these; left out: all", Arity = ArgumentArity.ZeroOrMore };
        var baud = new Option<int>("--baud") { Description = "Speed of the line", DefaultValueFactory = _ => SerialLine.UsualBaud };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand("ports", "List the serial ports, and which of them answers as a logger", "ports")
        {
            only, baud, json,
        };
        command.SetAction(line =>
        {
            string[] names = line.GetValue(only) is { Length: > 0 } asked ? asked : SerialPort.GetPortNames();
            var found = names.Order(StringComparer.Ordinal).AsParallel().AsOrdered().WithDegreeOfParallelism(Math.Clamp(names.Length, 1, 16))
                .Select(name => Ask(name, line.GetValue(baud), session.Stop)).ToList();
            if (line.GetValue(json))
            {
                JsonOut.Write(session, Json(found));
            }
            else
            {
                Show(session, found);
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static PortAnswer Ask(string name, int baud, CancellationToken stop)
    {
        try
        {
            using var talk = LoggerTalk.Open(new SerialLine(name, baud), TimeProvider.System);
            return talk.Identify(Patience, stop) is { } hello
                ? new PortAnswer(name, hello, "")
                : new PortAnswer(name, null, talk.BytesIn > 0 ? Phrases.Say("ports.stranger") : Phrases.Say("ports.no-answer"));
        }
        catch (Exception fault) when (fault is LineException or InputException)
        {
            return new PortAnswer(name, null, fault.Message);
        }
    }

    private static void Show(Session session, List<PortAnswer> found)
    {
        if (found.Count == 0)
        {
            session.Say(Phrases.Say("ports.none"));
            return;
        }

        Layout.Pairs(session, found.Select(f => (f.Name, f.Words)));
        if (found.Find(f => f.Hello is not null) is { } logger)
        {
            session.Say(Phrases.Say("ports.to-record", ("port", logger.Name)));
        }
    }

    private static JsonObject Json(List<PortAnswer> found) => new()
    {
        ["schema"] = "clackbeat.ports/1",
        ["ports"] = new JsonArray([.. found.Select(f => new JsonObject
        {
            ["port"] = f.Name,
            ["logger"] = f.Hello is null ? null : SessionHeader.DeviceOf(f.Hello),
            ["firmware"] = f.Hello is null ? null : f.Firmware,
            ["protocol"] = f.Hello?.Protocol,
            ["doing"] = f.Hello is null ? null : Catalogue.English.Say(f.ActivityCode),
            ["problem"] = f.Hello is null ? f.Problem : null,
        })]),
    };

    private sealed record PortAnswer(string Name, Hello? Hello, string Problem)
    {
        public string Firmware => Hello is null ? "" : string.Join('.', Hello.Firmware.Select(b => b.ToString(CultureInfo.InvariantCulture)));

        public string ActivityCode => Hello?.Mode switch
        {
            Modes.Streaming => "ports.streaming",
            Modes.Alone => "ports.alone",
            _ => "ports.idle",
        };

        public string Words => Hello is null
            ? Problem
            : Phrases.Say("ports.logger", ("device", SessionHeader.DeviceOf(Hello)), ("firmware", Firmware), ("activity", Phrases.Say(ActivityCode)));
    }
}
