using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Seasons;

/// <summary>What a reader asked a ram's pages for.</summary>
/// <param name="Ram">The ram.</param>
/// <param name="Units">Units.</param>
/// <param name="Days">Days back from now; 0 for all.</param>
/// <param name="IsByState">The calendar shows what the ram did, not the water it gave.</param>
internal sealed record SeasonAsk(string Ram, Units Units, int Days, bool IsByState)
{
    /// <summary>Days that a page shows where nobody asked for others.</summary>
    public const int Year = 365;

    /// <summary>A season's length at choice.</summary>
    public const int Quarter = 92;

    /// <summary>Reads it from an address.</summary>
    /// <param name="query">What stands behind the question mark.</param>
    /// <param name="usual">Units where it names none.</param>
    public static SeasonAsk Of(IQueryCollection query, Units usual) => new(
        query["ram"].ToString(), Reader.UnitsOf(query["units"], usual),
        int.TryParse(query["days"], NumberStyles.None, CultureInfo.InvariantCulture, out int days) ? days : Year, query["calendar"] == "state");

    /// <summary>The stretch of time before an instant.</summary>
    /// <param name="now">The instant.</param>
    public TimeSpanUtc Span(DateTimeOffset now) =>
        Days == 0 || Days > (now - DateTimeOffset.UnixEpoch).TotalDays ? TimeSpanUtc.All : new TimeSpanUtc(now.AddDays(-Days), DateTimeOffset.MaxValue);

    /// <summary>An address of the same ram, in the same language and units.</summary>
    /// <param name="path">The page.</param>
    /// <param name="more">Further names and values.</param>
    public string Link(string path, params IEnumerable<(string Name, string Value)> more) =>
        path + "?" + string.Join('&', Fields().Concat(more).Select(f => $"{f.Name}={Uri.EscapeDataString(f.Value)}"));

    /// <summary>What every form and link carries on.</summary>
    public IEnumerable<(string Name, string Value)> Fields() =>
        [("ram", Ram), (Reader.Language, Catalogue.Current.Language.Code), ("units", Units == Units.Us ? "us" : "metric")];
}
