using System.Text;
using Clackbeat.Report.Html;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Accounts;

/// <summary>The page on which somebody signs in, and the way out.</summary>
internal sealed class SignInFeature(AccountFile accounts, SignInLimits limits) : IPageFeature
{
    /// <summary>Where one signs in.</summary>
    public const string Path = "/sign-in";

    private const string Back = "back";

    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet(Path, (HttpContext context) => Form(context, null, StatusCodes.Status200OK)).AllowAnonymous();
        routes.MapPost(Path, (Delegate)SignIn).AddEndpointFilter<ProvenForm>().AllowAnonymous();
        routes.MapPost("/sign-out", (Delegate)SignOut).AddEndpointFilter<ProvenForm>();
    }

    private static async Task<IResult> SignOut(HttpContext context)
    {
        await context.SignOutAsync();
        return Results.LocalRedirect(Path);
    }

    private async Task<IResult> SignIn(HttpContext context)
    {
        IFormCollection form = await context.Request.ReadFormAsync();
        string name = form["name"].ToString().Trim();
        string password = form["password"].ToString();
        if (name.Length > AccountFile.LongestName || password.Length > Passwords.Longest)
        {
            return Form(context, Phrases.Say("account.wrong"), StatusCodes.Status403Forbidden);
        }

        if (!limits.MayTry(name, context.Connection.RemoteIpAddress))
        {
            context.Response.Headers.RetryAfter = (60 * SignInLimits.WindowMinutes).ToString(System.Globalization.CultureInfo.InvariantCulture);
            return Form(context, Phrases.Say("account.too-many", ("minutes", SignInLimits.WindowMinutes)), StatusCodes.Status429TooManyRequests);
        }

        Account? account = accounts.Find(name);
        if (!Passwords.Fits(account, password))
        {
            return Form(context, Phrases.Say("account.wrong"), StatusCodes.Status403Forbidden);
        }

        await context.SignInAsync(AccountDoor.Principal(account!));
        string back = context.Request.Query[Back].ToString();
        return Results.LocalRedirect(RedirectHttpResult.IsLocalUrl(back) ? back : "/");
    }

    private static IResult Form(HttpContext context, string? trouble, int status)
    {
        string back = context.Request.Query[Back].ToString();
        string action = $"{Path}?{Reader.Language}={Catalogue.Current.Language.Code}" + (back.Length > 0 ? $"&{Back}={Uri.EscapeDataString(back)}" : "");
        var body = Markup.Of(
            $"""
            <h1>{Phrases.Say("account.title")}</h1>
            {(trouble is null ? Markup.Empty : Markup.Of($"<p class=\"trouble\" role=\"alert\">{trouble}</p>"))}
            <form class="narrow" action="{action}" method="post">{Visitor.ProofOf(context)}
            <div><label for="name">{Phrases.Say("account.name")}</label><input id="name" name="name" autocomplete="username" autocapitalize="none" spellcheck="false" required maxlength="60"></div>
            <div><label for="password">{Phrases.Say("account.password")}</label><input id="password" name="password" type="password" autocomplete="current-password" required maxlength="200"></div>
            <button class="main">{Phrases.Say("account.sign-in")}</button>
            </form>
            <ul class="links">{Catalogue.All.Where(c => c != Catalogue.Current).Select(c => Markup.Of($"<li><a lang=\"{c.Language.Code}\" href=\"{Path}?{Reader.Language}={c.Language.Code}\">{c.Language.Name}</a></li>"))}</ul>
            """);
        context.Response.Headers.ContentSecurityPolicy = LocalPage.Policy;
        return Results.Text(PageShell.Served(Phrases.Say("account.title"), ["pages.css"], body), "text/html; charset=utf-8", Encoding.UTF8, status);
    }
}

/// <summary>Lets a form through only if it comes from a page of this server.</summary>
internal sealed class ProvenForm(IAntiforgery antiforgery) : IEndpointFilter
{
    /// <inheritdoc/>
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next) =>
        await antiforgery.IsRequestValidAsync(context.HttpContext)
            ? await next(context)
            : PageShell.Trouble(context.HttpContext, Phrases.Say("account.no-proof"), StatusCodes.Status400BadRequest);
}
