using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>bench: has a logger measure what its board can do.</summary>
internal static class BenchCommand
{
    // The board measures for four seconds, longer with a slow card; one that works alone may first end a burst.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    public static Command Create(Session session)
    {
        var port = new Argument<string>("PORT") { Description = "The logger's serial port" };
        var baud = new Option<int>("--baud") { Description = "Speed of the line", DefaultValueFactory = _ => SerialLine.UsualBaud };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand("bench", "Let a logger measure what its board can do", "bench /dev/ttyUSB0")
        {
            port, baud, json,
        };
        command.SetAction(line =>
        {
            string name = line.GetValue(port)!;
            Bench bench = Measure(session, new SerialLine(name, line.GetValue(baud)));
            if (line.GetValue(json))
            {
                JsonOut.Write(session, Json(name, bench));
            }
            else
            {
                Layout.Pairs(session, Rows(bench));
                session.Out.WriteLine();
                Layout.Paragraph(session, Verdict(bench));
            }

            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>What the figures mean for a record, in words.</summary>
    internal static string Verdict(Bench bench) => bench.Lost > 0
        ? Phrases.Say("bench.loses", ("rate", RateFor(bench)))
        : bench.WorstTurnMicroseconds > bench.PeriodMicroseconds
            ? Phrases.Say("bench.late")
            : Phrases.Say("bench.keeps-up");

    private static Bench Measure(Session session, SerialLine line)
    {
        try
        {
            using var talk = LoggerTalk.Open(line, TimeProvider.System);
            _ = talk.Identify(TimeSpan.FromSeconds(3), session.Stop) ?? throw talk.Nobody();
            session.Say(Phrases.Say("bench.measuring"));
            byte[] body = talk.Ask(() => talk.TrySend(Kinds.AskBench), IsAnswer, Patience, session.Stop, again: Patience)
                ?? throw InputException.Of("line.press-reset");
            Bench bench = new();
            if (bench.TryRead(body, body.Length))
            {
                return bench;
            }

            throw body[2] == Results.NotNow ? InputException.Of("line.recording-now") : InputException.Of("line.old-firmware");
        }
        catch (LineException refused)
        {
            throw new InputException(refused.What, refused);
        }
    }

    private static bool IsAnswer(byte[] body) =>
        body[0] == Kinds.Bench || (body[0] == Kinds.Answer && body.Length > 2 && body[1] == Kinds.AskBench);

    private static IEnumerable<(string, string)> Rows(Bench bench)
    {
        yield return (Phrases.Say("bench.rate"), Phrases.Say("bench.rate-is", ("rate_hz", 1e6 / bench.PeriodMicroseconds), ("lost", bench.Lost), ("samples", bench.Samples + bench.Lost)));
        yield return (Phrases.Say("bench.conversion"), Us(bench.ConversionNanoseconds / 1e3));
        yield return (Phrases.Say("bench.clock"), Us(bench.ClockNanoseconds / 1e3));
        yield return (Phrases.Say("bench.turn"), Phrases.Say("bench.turn-is", ("turn_us", bench.TurnMicroseconds), ("worst_us", bench.WorstTurnMicroseconds), ("period_us", bench.PeriodMicroseconds)));
        yield return (Phrases.Say("bench.times"), Phrases.Say("bench.times-are", ("jitter_us", bench.JitterNanoseconds / 1e3), ("told_us", TimeUncertaintyUs(bench))));
        yield return (Phrases.Say("bench.send"), Text($"{bench.SendMicroseconds} µs"));
        yield return (Phrases.Say("bench.card"), bench.BlockMicroseconds == ProtocolVersion.Unknown32
            ? Phrases.Say("bench.no-card")
            : Phrases.Say("bench.card-is", ("block_ms", bench.BlockMicroseconds / 1e3), ("worst_ms", bench.WorstBlockMicroseconds / 1e3)));
        yield return (Phrases.Say("bench.memory"), bench.FreeMemoryBytes == ProtocolVersion.Unknown32 ? Phrases.Say("bench.unknown") : Text($"{bench.FreeMemoryBytes / 1024} KiB"));
    }

    private static JsonObject Json(string port, Bench bench) => new()
    {
        ["schema"] = "clackbeat.bench/1",
        ["port"] = port,
        ["period_s"] = bench.PeriodMicroseconds / 1e6,
        ["samples"] = bench.Samples,
        ["lost"] = bench.Lost,
        ["conversion_s"] = bench.ConversionNanoseconds / 1e9,
        ["clock_reading_s"] = bench.ClockNanoseconds / 1e9,
        ["turn_mean_s"] = bench.TurnMicroseconds / 1e6,
        ["turn_worst_s"] = bench.WorstTurnMicroseconds / 1e6,
        ["jitter_s"] = bench.JitterNanoseconds / 1e9,
        ["time_u_s"] = TimeUncertaintyUs(bench) / 1e6,
        ["send_s"] = bench.SendMicroseconds / 1e6,
        ["block_s"] = Known(bench.BlockMicroseconds) / 1e6,
        ["block_worst_s"] = Known(bench.WorstBlockMicroseconds) / 1e6,
        ["free_memory_bytes"] = Known(bench.FreeMemoryBytes),
    };

    /// <summary>How well a sample's time is told [µs]: the clock is read before the conversion, which lies anywhere between that and its end.</summary>
    internal static double TimeUncertaintyUs(Bench bench) => (bench.ConversionNanoseconds + bench.ClockNanoseconds) / 1e3;

    // What a turn takes on the average fits into the period with a third to spare.
    private static int RateFor(Bench bench) => (int)Math.Max(1, Math.Floor(1e6 / (1.5 * bench.TurnMicroseconds) / 50) * 50);

    private static double? Known(uint value) => value == ProtocolVersion.Unknown32 ? null : value;

    private static string Us(double us) => Phrases.Say("bench.us", ("us", us));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
