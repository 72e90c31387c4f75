using System.Text;
using Clackbeat.Watch.Stream;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Web;

/// <summary>
/// The live page with what it needs for its first picture within it, as data that no browser runs: the words, and all that
/// is known of the ram. So the keeper sees it one way there and back earlier.
/// </summary>
internal static class LivePage
{
    private const string Place = "<!--along-->";

    private static readonly string[] Page = Encoding.UTF8.GetString(PageFiles.Find("index.html")!).Split(Place);

    private static readonly string Words = Data("words", Encoding.UTF8.GetString(PageFiles.Find(PageFiles.Words)!).Replace("<", "\\u003c", StringComparison.Ordinal));

    /// <summary>Answers with the page.</summary>
    public static IResult Answer(PictureMessage picture) =>
        Results.Text(Page[0] + Words + Data("first", Wire.WithinPage(picture)) + Page[1], "text/html; charset=utf-8");

    private static string Data(string id, string json) => $"<script type=\"application/json\" id=\"{id}\">{json}</script>\n";
}
