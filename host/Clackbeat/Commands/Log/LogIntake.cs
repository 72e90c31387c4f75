using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Unattended.Intake;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Commands.Log;

/// <summary>log intake: takes what far loggers' computers send into a store, until stopped.</summary>
internal static class LogIntake
{
    public static Command Create(Session session)
    {
        var file = new Argument<string>("FILE") { Description = "File that says who may send what, made by 'clackbeat log intake new'" };
        var command = new ExampleCommand(
            "intake", "Take bursts that far loggers' computers send into the season store, each once, over HTTPS or MQTT", "log intake intake.toml") { file };
        command.SetAction(line => Run(session, IntakeFile.Load(line.GetRequiredValue(file))));
        command.Add(CreateNew(session));
        command.Add(CreateSite(session));
        return command;
    }

    private static ExampleCommand CreateNew(Session session)
    {
        var file = new Argument<string>("FILE") { Description = "File to write, such as intake.toml" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand("new", "Write a commented file that says who may send bursts, and by which way", "log intake new intake.toml") { file, overwrite };
        command.SetAction(line =>
        {
            string path = line.GetRequiredValue(file);
            OutputFile.WriteText(path, IntakeFile.Template, line.GetValue(overwrite));
            session.Say(Phrases.Say("intake.wrote", ("file", path)));
            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand CreateSite(Session session)
    {
        var name = new Argument<string>("NAME") { Description = "Name of the sender: small letters, digits and hyphens" };
        var command = new ExampleCommand("site", "Make a secret for a sender, and what the intake's file keeps of it", "log intake site mill") { name };
        command.SetAction(line =>
        {
            string site = line.GetRequiredValue(name);
            if (!SiteName.IsOne(site))
            {
                throw InputException.Of("intake.site-name", ("name", site));
            }

            string secret = SiteDoor.MakeSecret();
            session.Out.WriteLine($"""
                [[site]]
                name = "{site}"
                secret_hash = "{SiteDoor.Hash(site, secret)}"
                rams = ["*"]
                """);
            session.Say(Phrases.Say("intake.secret", ("site", site), ("secret", secret)));
            return ExitCode.Done;
        });
        return command;
    }

    private static int Run(Session session, IntakeSettings settings)
    {
        using var desk = new IntakeDesk(() => SeasonStores.Open(settings.Store, create: true), settings.Sites, TimeProvider.System, news => Tell(session, news));
        desk.Begin();
        using var service = new LogServiceHost(() => TimeSpan.Zero, session.Stop);
        Serve(session, settings, desk, service.Stopping).GetAwaiter().GetResult();
        return ExitCode.Done;
    }

    private static async Task Serve(Session session, IntakeSettings settings, IntakeDesk desk, CancellationToken stop)
    {
        IntakeServer? server = null;
        if (settings.Web is { } web)
        {
            server = await IntakeServer.Start(web, desk, new SiteDoor(settings.Sites, TimeProvider.System), stop).ConfigureAwait(false);
            session.Say(web.Certificate is null
                ? Phrases.Say("intake.listens-here", ("port", server.Port))
                : Phrases.Say("intake.listens", ("port", server.Port)));
        }

        Task listening = Task.CompletedTask;
        if (settings.Broker is { } broker)
        {
            session.Say(Phrases.Say("intake.from-broker", ("server", broker.Place.Server), ("topic", broker.Place.Topic)));
            listening = new IntakeSubscriber(broker, desk).Run(stop);
        }

        session.Say(Phrases.Say("intake.begin", ("store", SeasonStores.Shown(settings.Store)), ("sites", settings.Sites.Count)));
        await Task.Delay(Timeout.Infinite, stop).ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default).ConfigureAwait(false);
        await listening.ConfigureAwait(false);
        if (server is not null)
        {
            await server.DisposeAsync().ConfigureAwait(false);
        }
    }

    private static void Tell(Session session, LogNews news)
    {
        if (news.IsTrouble)
        {
            session.Warn(news.Words);
        }
        else
        {
            session.Say(news.Words);
        }
    }
}
