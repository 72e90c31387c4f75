using System.CommandLine;
using Clackbeat.Commands.Trend;
using Clackbeat.Frame;
using Clackbeat.Report.Export;
using Clackbeat.Report.Seasons;
using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Overview;
using Clackbeat.Watch.Web;
using Clackbeat.Words;

namespace Clackbeat.Commands.Overview;

/// <summary><c>overview</c>: all rams of a store on one page, the one that needs a visit most first.</summary>
internal static class OverviewCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var name = new Argument<string?>("STORE")
        {
            Description = "Season store, made by 'clackbeat log': a file, or postgres://user@host/database",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var reach = new ReachOptions();
        var list = new Option<string?>("--rams") { Description = "Table of the rams with the columns ram, latitude, longitude, need, keeper", HelpName = "FILE.csv" };
        var at = new Option<string?>("--at") { Description = "As of this time; left out: now", HelpName = "TIME" };
        var output = new Option<string?>("--out") { Description = "Write the page as a file", HelpName = "FILE.html" };
        var us = new Option<bool>("--us") { Description = "Gallons and miles" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "overview",
            "Show all rams of a store on one page: which need a visit, why, and what to do first",
            "overview my-rams.db",
            "overview my-rams.db --out rams.html",
            "overview my-rams.db --rams rams.csv --http 8080",
            "overview my-rams.db --http 8443 --accounts accounts.json --certificate rams.pem --key rams.key",
            "overview postgres://anna@server/rams --json")
        {
            name, list, at, output, us, overwrite, json,
        };
        command.SharesArguments = true;
        reach.AddTo(command);
        command.Add(AccountCommand.Create(session));
        command.SetAction(line =>
        {
            using ISeasonStore open = SeasonStores.Open(line.GetValue(name) ?? throw InputException.Of("trend.needs-store"), create: false);
            var store = (IOverviewStore)open;
            IReadOnlyDictionary<string, RamEntry> entries = line.GetValue(list) is { } file ? RamList.Read(file) : new Dictionary<string, RamEntry>();
            DateTimeOffset? fixedAt = SeasonTime.Parse("--at", line.GetValue(at));
            DateTimeOffset Now() => fixedAt ?? DateTimeOffset.UtcNow;
            Units units = line.GetValue(us) ? Units.Us : Units.Metric;
            if (reach.IsAsked(line))
            {
                return Serve(session, reach.Reach(line), new OverviewOptions
                {
                    Store = store,
                    Entries = entries,
                    Now = Now,
                    Units = units,
                    Accounts = reach.Accounts(line),
                    SeasonOf = (ram, chosen) => SeasonOf(store, ram, chosen),
                });
            }

            IReadOnlyList<RamVisit> visits = VisitRules.Judge(store.Summaries(), entries, Now());
            if (visits.Count == 0)
            {
                throw InputException.Of("overview.empty");
            }

            if (line.GetValue(output) is { } path)
            {
                OutputFile.WriteText(path, OverviewServer.File(visits, Now(), units), line.GetValue(overwrite));
                session.Say(Phrases.Say("wrote.file", ("file", path)));
            }
            else if (!line.GetValue(json))
            {
                OverviewText.Write(session, visits, Now(), units);
            }

            if (line.GetValue(json))
            {
                JsonOut.Write(session, OverviewJson.Of(visits, Now()));
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static byte[] SeasonOf(ISeasonStore store, string ram, Units units)
    {
        using var page = new MemoryStream();
        SeasonReportWriter.Write(page, ReportFormat.Html, SeasonStories.Of(store, ram, TimeSpanUtc.All, units), DateTimeOffset.Now);
        return page.ToArray();
    }

    private static int Serve(Session session, PageReach reach, OverviewOptions options)
    {
        OverviewServer server = OverviewServer.Start(options, reach, session.Stop).GetAwaiter().GetResult();
        return ServedPage.Run(session, server, server.Port, reach.Certificate is null ? "http" : "https", reach.IsPublic ? "account.served-to-others" : "plan-page.open-it");
    }
}
