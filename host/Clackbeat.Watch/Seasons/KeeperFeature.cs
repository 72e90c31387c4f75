using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Upkeep;
using Clackbeat.Season.Wording;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Accounts;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Seasons;

/// <summary>What keepers do on the pages: marks, and bursts out and back. Each goes into the journal under the account's name.</summary>
/// <param name="store">The store.</param>
/// <param name="now">Now.</param>
internal sealed class KeeperFeature(ICorrectableStore store, Func<DateTimeOffset> now) : IPageFeature
{
    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder keepers = routes.MapGroup("").RequireAuthorization(Visitor.Keeper).AddEndpointFilter<ProvenForm>();
        keepers.MapPost("/marks/add", Handler(AddMark));
        keepers.MapPost("/marks/change", Handler(ChangeMark));
        keepers.MapPost(UpkeepPage.DonePath, Handler(NoteDone));
        keepers.MapPost("/bursts/remove", Handler(RemoveBurst));
        keepers.MapPost("/undo", Handler(Undo));
    }

    private Delegate Handler(Func<Asked, string> work) => (HttpContext context) => Do(context, work);

    private async Task<IResult> Do(HttpContext context, Func<Asked, string> work)
    {
        var ask = SeasonAsk.Of(context.Request.Query, Units.Metric);
        IFormCollection form = await context.Request.ReadFormAsync();
        return store.Rams().Contains(ask.Ram)
            ? Results.LocalRedirect(work(new Asked(ask, form, Visitor.Of(context).Name)))
            : PageShell.Trouble(context, Phrases.Say("overview.no-ram"), StatusCodes.Status404NotFound);
    }

    private string AddMark(Asked asked)
    {
        store.Add(new MaintenanceMark(asked.Ask.Ram, asked.Time("at") ?? now(), asked.Words("words")), Note(asked, Phrases.Say("keeper.noted")));
        return asked.Ask.Link("/season") + "#marks";
    }

    private string NoteDone(Asked asked)
    {
        string code = UpkeepTask.All.FirstOrDefault(t => t.Code == asked.Form["check"])?.Code ?? throw InputException.Of("keeper.no-check");
        string words = asked.Form["note"].ToString().Trim().Length > 0 ? $"{UpkeepRules.Done(code)}: {asked.Words("note")}" : UpkeepRules.Done(code);
        store.Add(new MaintenanceMark(asked.Ask.Ram, now(), words), Note(asked, Phrases.Say("keeper.noted")));
        return asked.Ask.Link("/upkeep");
    }

    private string ChangeMark(Asked asked)
    {
        MaintenanceMark was = store.Marks(asked.Ask.Ram).FirstOrDefault(m => m.AtUtc.ToString("O", CultureInfo.InvariantCulture) == asked.Form["was-at"] && m.Words == asked.Form["was-words"])
            ?? throw InputException.Of("keeper.mark-gone");
        MaintenanceMark? becomes = asked.Form["do"] == "remove" ? null : was with { AtUtc = asked.Time("at") is { } at && !IsSameMinute(at, was.AtUtc) ? at : was.AtUtc, Words = asked.Words("words") };
        if (was != becomes)
        {
            store.Change(was, becomes, Note(asked, asked.Words("why")));
        }

        return asked.Ask.Link("/season") + "#marks";
    }

    private string RemoveBurst(Asked asked)
    {
        if (!DateOnly.TryParseExact(asked.Form["day"].ToString(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day))
        {
            throw InputException.Of("season-page.no-day", ("text", asked.Form["day"].ToString()));
        }

        SeasonBurst burst = store.Bursts(asked.Ask.Ram, CalendarDays.Span(day, day, TimeZoneInfo.Local)).FirstOrDefault(b => Convert.ToHexString(b.SourceHash) == asked.Form["burst"])
            ?? throw InputException.Of("keeper.burst-gone");
        store.Remove([burst], Note(asked, asked.Words("why")));
        return asked.Ask.Link("/bursts", ("day", SeasonText.Day(day)));
    }

    private string Undo(Asked asked)
    {
        if (!long.TryParse(asked.Form["number"].ToString(), NumberStyles.None, CultureInfo.InvariantCulture, out long number))
        {
            throw InputException.Of("keeper.no-number");
        }

        store.Undo(asked.Ask.Ram, number, Note(asked, Phrases.Say("keeper.undone")));
        return asked.Ask.Link("/season") + "#journal";
    }

    private CorrectionNote Note(Asked asked, string why) => new(asked.Who, why, now());

    // The form tells minutes; a mark keeps its seconds where they weren't touched.
    private static bool IsSameMinute(DateTimeOffset a, DateTimeOffset b) => SeasonBlocks.Minute(a) == SeasonBlocks.Minute(b);

    private sealed record Asked(SeasonAsk Ask, IFormCollection Form, string Who)
    {
        public string Words(string field)
        {
            string words = new([.. Form[field].ToString().Where(c => !char.IsControl(c)).Take(KeeperForms.LongestWords)]);
            return words.Trim() is { Length: > 0 } said ? said : throw InputException.Of("keeper.no-words");
        }

        public DateTimeOffset? Time(string field)
        {
            string text = Form[field].ToString();
            return text.Length == 0 ? null
                : DateTime.TryParseExact(text, ["yyyy-MM-ddTHH:mm", "yyyy-MM-ddTHH:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.AssumeLocal, out DateTime local)
                    && local.Year is > 1970 and < 9000
                    ? new DateTimeOffset(local)
                    : throw InputException.Of("keeper.no-time", ("text", text));
        }
    }
}
