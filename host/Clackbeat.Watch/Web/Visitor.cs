using System.Security.Claims;
using Clackbeat.Report.Html;
using Clackbeat.Words;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Clackbeat.Watch.Web;

/// <summary>Who looks at a page.</summary>
/// <param name="Name">Name of the account; empty where there are no accounts.</param>
/// <param name="IsKeeper">May correct.</param>
/// <param name="Proof">What a form carries to show that it comes from this page.</param>
internal sealed record Visitor(string Name, bool IsKeeper, Markup Proof)
{
    /// <summary>The role that may correct.</summary>
    public const string Keeper = "keeper";

    /// <summary>Somebody on this computer, where there are no accounts.</summary>
    public static Visitor Anybody { get; } = new("", false, Markup.Empty);

    /// <summary>Who sends a request.</summary>
    /// <param name="context">The request.</param>
    public static Visitor Of(HttpContext context) => context.User.Identity is { IsAuthenticated: true, Name: { } name }
        ? new Visitor(name, context.User.HasClaim(ClaimTypes.Role, Keeper), ProofOf(context))
        : Anybody;

    /// <summary>A hidden field that a page elsewhere can't know.</summary>
    /// <param name="context">The request that the page answers.</param>
    public static Markup ProofOf(HttpContext context)
    {
        AntiforgeryTokenSet tokens = context.RequestServices.GetRequiredService<IAntiforgery>().GetAndStoreTokens(context);
        return Markup.Of($"<input type=\"hidden\" name=\"{tokens.FormFieldName}\" value=\"{tokens.RequestToken ?? ""}\">");
    }

    /// <summary>A line that says who is signed in, with the way out; nothing where there are no accounts.</summary>
    public Markup Line() => Name.Length == 0
        ? Markup.Empty
        : Markup.Of(
            $"""
            <form class="who" action="/sign-out?{Reader.Language}={Catalogue.Current.Language.Code}" method="post">{Proof}
            <span class="small">{Phrases.Say(IsKeeper ? "account.signed-in-keeper" : "account.signed-in-reader", ("name", Name))}</span>
            <button>{Phrases.Say("account.sign-out")}</button></form>
            """);
}
