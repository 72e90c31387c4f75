using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Commands.Watch;
using Clackbeat.Frame;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Watch.Checks;
using Clackbeat.Watch.Figures;
using Clackbeat.Watch.Web;
using Clackbeat.Words;

namespace Clackbeat.Commands.Check;

/// <summary>
/// <c>check run INPUT</c>: the tests by hand one after the other until one cause is three times as likely as any other. At a terminal each step
/// waits for Enter; where input is redirected the plan is printed, and what to run next.
/// </summary>
internal static class CheckRunCommand
{
    private static readonly TimeSpan Poll = TimeSpan.FromMilliseconds(200);

    // A minute of beats, and time to judge it.
    private static readonly TimeSpan Minute = TimeSpan.FromSeconds(60);

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var options = new WatchCommandOptions(isPage: false);
        Option<string?> log = CheckBook.Option();
        var restart = new Option<bool>("--restart") { Description = "Begin afresh instead of going on where the log says that the last sequence stood" };
        var test = new Option<string?>("--test") { Description = $"Make this test first, whichever decides: {string.Join(", ", HandTest.All.Select(t => t.Code))}", HelpName = "TEST" };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "run",
            "Lead through the tests by hand, the cheapest first, until one cause is three times as likely as any other",
            "check run monday.csv --site my-ram.toml",
            "check run /dev/ttyUSB0 --site my-ram.toml --log tests.jsonl",
            "check run virtual --site my-ram.toml --condition delivery-valve-leaking");
        options.AddTo(command);
        command.Add(log);
        command.Add(restart);
        command.Add(test);
        command.Add(json);
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            WatchRequest request = options.Read(line);
            var run = new CheckRun(session, request, SiteFile.Load(request.Simulation.SitePath), line.GetValue(log), line.GetValue(restart), Wanted(line.GetValue(test)), line.GetValue(json));
            return WatchCommand.IsRecord(request.Input) ? run.OnRecord() : run.Live();
        });
        return command;
    }

    private static HandTest? Wanted(string? code) => code is null
        ? null
        : HandTest.Of(code) ?? throw InputException.Of("check-log.no-such-test", ("test", code), ("tests", string.Join(", ", HandTest.All.Select(t => t.Code))));

    private sealed class CheckRun(Session session, WatchRequest request, RamSite ram, string? log, bool isRestart, HandTest? wanted, bool isJson)
    {
        private readonly CheckBook _book = CheckBook.Open(log, request.Simulation.SitePath);
        private readonly bool _asks = session.OutIsTerminal && !Console.IsInputRedirected && !isJson;

        // What was asked for comes first, once; then what decides.
        private HandTest? Next => wanted is not null && _book.Newest!.Steps.All(s => s.Test != wanted.Code) ? wanted : _book.Newest!.Next;

        private string SitePath => request.Simulation.SitePath;

        public int OnRecord()
        {
            request.RefuseVirtual();
            string name = Path.GetFileName(request.Input);
            RamAnalysis? record = null;
            if (isRestart || _book.Record != name)
            {
                RamAnalysis? well = Baseline();
                record = RecordInput.Analyse(session, request.Input, request.Reading, ram, well?.Signature);
                if (CheckSequence.Begin(record) is not { } begun)
                {
                    throw InputException.Of("check-log.not-judged", ("file", request.Input));
                }

                _book.Begin(begun, name);
            }

            while (_asks && Next is { } test)
            {
                CheckTalk.Causes(session, _book.Newest!);
                CheckTalk.Test(session, test);
                string answer = Ask(Phrases.Say("check-run.ask-recording"));
                if (answer.Length == 0)
                {
                    break;
                }

                try
                {
                    BucketTest? bucket = test.Code == HandTest.Bucket ? BucketText.Parse(Ask(Phrases.Say("check-run.ask-bucket", ("example", BucketText.Example)))) : null;
                    record ??= test.IsRepeat ? RecordInput.Analyse(session, request.Input, request.Reading, ram) : null;
                    Told(CheckReadingCommands.Read(session, test, answer, request.Reading, ram, bucket, record), Path.GetFileName(answer));
                }
                catch (InputException mistake)
                {
                    // A name mistyped is no reason to end: the test may have taken an hour's walk.
                    session.Say(mistake.Message);
                }
            }

            return Close(request.Input);
        }

        /// <summary>The same on live samples: the live page's own desk, with the terminal as one more face of it.</summary>
        public int Live()
        {
            RamAnalysis? well = Baseline();
            using IWatchInput input = WatchCommand.Open(session, request, ram);
            WatchServer server = WatchServer.Start(new WatchOptions
            {
                Site = ram,
                Source = input.Source,
                Desk = input.Desk,
                Baseline = well is null ? null : new LiveBaseline(well, Path.GetFileName(request.Baseline ?? SavedBaseline.PathOf(SitePath))),
                Checks = _book,
                RamHands = input.Hands,
                Port = 0,
                Told = (_, words) => session.Say(words),
            }).GetAwaiter().GetResult();
            try
            {
                CheckDesk desk = server.Check!;
                if (isRestart || _book.Newest is not { IsDecided: false })
                {
                    session.Say(Phrases.Say("check-run.listening", ("seconds", Minute.TotalSeconds)));
                    Wait(Minute, server);
                    desk.Judge().Wait(session.Stop);
                    if (desk.State.Lack is { } lack)
                    {
                        throw new InputException(lack);
                    }
                }

                while (_asks && Next is { } test)
                {
                    CheckTalk.Causes(session, desk.State.Sequence!);
                    CheckTalk.Test(session, test);
                    Lead(desk, test, server);
                    if (desk.State.Lack is { } lack)
                    {
                        throw new InputException(lack);
                    }
                }

                return Close(null);
            }
            finally
            {
                server.DisposeAsync().AsTask().GetAwaiter().GetResult();
            }
        }

        private void Lead(CheckDesk desk, HandTest test, WatchServer server)
        {
            Ask(Phrases.Say("check-run.ask-begin"));
            desk.Begin(test.Code).Wait(session.Stop);
            while (desk.State is { IsRunning: true } state)
            {
                bool isLast = state.Phase == state.Test!.Phases[^1].Code;
                session.Out.WriteLine(Phrases.Say("check-run.phase", ("what", CheckPhrases.Now(state.Phase)), ("seconds", state.LeftS)));
                while (desk.State is { LeftS: > 0 } waits && waits.Phase == state.Phase)
                {
                    Wait(Poll, server);
                }

                if (!isLast || state.Phase == "bucket")
                {
                    Step(desk, state.Phase);
                }

                while (desk.State.Phase == CheckDesk.Busy || (isLast && state.Phase != "bucket" && desk.State.Phase == state.Phase))
                {
                    Wait(Poll, server);
                }
            }

            if (desk.State.Reading is { } reading)
            {
                CheckTalk.Verdict(session, reading);
            }
        }

        private void Step(CheckDesk desk, string phase)
        {
            if (phase != "bucket")
            {
                Ask(Phrases.Say("check-run.ask-next", ("what", CheckPhrases.Ready(phase))));
                desk.Next();
                return;
            }

            string answer = Ask(Phrases.Say("check-run.ask-bucket", ("example", BucketText.Example)));
            try
            {
                desk.Next(answer.Length == 0 ? null : BucketText.Parse(answer));
            }
            catch (InputException mistake)
            {
                session.Say(mistake.Message);
            }
        }

        private void Told(HandReading reading, string file)
        {
            CheckTalk.Verdict(session, reading);
            _book.Keep(reading, file);
        }

        private int Close(string? record)
        {
            CheckSequence sequence = _book.Newest!;
            if (isJson)
            {
                JsonOut.Write(session, CheckTalk.Json(_book, sequence, Next, SitePath, log, record));
                return ExitCode.Done;
            }

            CheckTalk.Causes(session, sequence);
            if (Next is { } next)
            {
                if (!_asks)
                {
                    CheckTalk.Test(session, next);
                }

                session.Out.WriteLine();
                session.Out.WriteLine(Phrases.Say("check-run.then"));
                session.Out.WriteLine("  " + CheckTalk.Command(next, SitePath, log, record));
                session.Out.WriteLine($"  clackbeat check run {CheckTalk.Quoted(request.Input)} --site {CheckTalk.Quoted(SitePath)}{Given("--baseline", request.Baseline)}{Given("--log", log)}");
            }
            else
            {
                CheckTalk.End(session, sequence);
            }

            session.Say(Phrases.Say("wrote.kept", ("file", _book.Path)));
            return ExitCode.Done;
        }

        private static string Given(string option, string? file) => file is null ? "" : $" {option} {CheckTalk.Quoted(file)}";

        private RamAnalysis? Baseline() => RecordInput.ReadBaseline(session, request.Baseline, request.IsWithoutBaseline, SitePath, request.Reading, ram);

        private string Ask(string words)
        {
            session.Out.Write(words + " ");
            session.Out.Flush();
            return Console.In.ReadLine()?.Trim() ?? throw new OperationCanceledException();
        }

        private void Wait(TimeSpan time, WatchServer server)
        {
            if (server.Source.Exception?.GetBaseException() is { } fault)
            {
                throw fault is InputException ? fault : new IOException(fault.Message, fault);
            }

            if (session.Stop.WaitHandle.WaitOne(time))
            {
                throw new OperationCanceledException(session.Stop);
            }
        }
    }
}
