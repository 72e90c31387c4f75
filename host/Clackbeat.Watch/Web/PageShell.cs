using System.Text;
using Clackbeat.Report.Html;
using Clackbeat.Words;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Web;

/// <summary>What all pages without scripts have around their content.</summary>
internal static class PageShell
{
    /// <summary>A whole page that takes its style from the server.</summary>
    /// <param name="title">Title of the window.</param>
    /// <param name="styles">Names of style sheets among the page's files.</param>
    /// <param name="body">What stands within.</param>
    public static string Served(string title, IEnumerable<string> styles, Markup body) => Write(title, Links(styles), body);

    /// <summary>Brings in style sheets and the icon from the server.</summary>
    /// <param name="styles">Names of style sheets among the page's files.</param>
    public static Markup Links(IEnumerable<string> styles) => Markup.Of(
        $"<link rel=\"icon\" href=\"/page/icon.svg\">{styles.Select(s => Markup.Of($"<link rel=\"stylesheet\" href=\"/page/{s}\">"))}");

    /// <summary>An answer that tells what went wrong, with the way back.</summary>
    /// <param name="context">The request.</param>
    /// <param name="words">What went wrong.</param>
    /// <param name="status">Status of the answer.</param>
    public static IResult Trouble(HttpContext context, string words, int status)
    {
        context.Response.Headers.ContentSecurityPolicy = LocalPage.Policy;
        var body = Markup.Of(
            $"""
            <h1>{Phrases.Say("season-page.trouble")}</h1>
            <p class="trouble" role="alert">{words}</p>
            <p><a href="/">{Phrases.Say("overview.title")}</a></p>
            """);
        return Results.Text(Served(Phrases.Say("season-page.trouble"), ["pages.css"], body), "text/html; charset=utf-8", Encoding.UTF8, status);
    }

    /// <summary>A whole page.</summary>
    /// <param name="title">Title of the window.</param>
    /// <param name="head">What brings in the style.</param>
    /// <param name="body">What stands within.</param>
    public static string Write(string title, Markup head, Markup body) => Markup.Of(
        $"""
        <!doctype html>
        <html lang="{Catalogue.Current.Language.Code}">
        <head>
        <meta charset="utf-8">
        <meta name="viewport" content="width=device-width, initial-scale=1">
        <meta name="color-scheme" content="light dark">
        <title>{title}</title>
        {head}
        </head>
        <body>
        <main>
        {body}
        </main>
        </body>
        </html>

        """).Text;
}
