using System.Security.Claims;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Clackbeat.Watch.Accounts;

/// <summary>
/// Lets in whoever has an account, by a cookie of the framework. The keys of cookies live in memory: they end with the program, as
/// the live page's sessions do.
/// </summary>
/// <param name="accounts">Who may come in.</param>
/// <param name="isSecure">The page is reached over TLS, so its cookies travel over nothing else.</param>
internal sealed class AccountDoor(AccountFile accounts, bool isSecure)
{
    private const string StampClaim = "stamp";

    // A browser takes a cookie of such a name only over TLS, for this host alone (RFC 6265bis, 4.1.3.2).
    private string Prefix => isSecure ? "__Host-" : "";

    /// <summary>What stands in somebody's cookie.</summary>
    public static ClaimsPrincipal Principal(Account account) => new(new ClaimsIdentity(
        [
            new Claim(ClaimTypes.Name, account.Name), new Claim(StampClaim, account.Stamp),
            .. account.Role == AccountRole.Keeper ? [new Claim(ClaimTypes.Role, Visitor.Keeper)] : Array.Empty<Claim>(),
        ],
        CookieAuthenticationDefaults.AuthenticationScheme));

    /// <summary>Adds what the framework needs.</summary>
    public void AddTo(IServiceCollection services)
    {
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(cookie =>
        {
            Secure(cookie.Cookie, "clackbeat-account");
            cookie.ExpireTimeSpan = TimeSpan.FromHours(12);
            cookie.SlidingExpiration = true;
            cookie.Events.OnValidatePrincipal = StillHolds;
            cookie.Events.OnRedirectToLogin = SendToSignIn;
            cookie.Events.OnRedirectToAccessDenied = refused =>
                PageShell.Trouble(refused.HttpContext, Phrases.Say("account.keepers-only"), StatusCodes.Status403Forbidden).ExecuteAsync(refused.HttpContext);
        });
        services.AddAuthorization(rules =>
        {
            rules.FallbackPolicy = new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build();
            rules.AddPolicy(Visitor.Keeper, rule => rule.RequireAuthenticatedUser().RequireRole(Visitor.Keeper));
        });
        services.AddAntiforgery(proof =>
        {
            proof.FormFieldName = "proof";
            proof.HeaderName = null;
            proof.SuppressXFrameOptionsHeader = true;
            Secure(proof.Cookie, "clackbeat-proof");
        });
    }

    /// <summary>Asks everybody who he is before anything is answered.</summary>
    public static void Use(WebApplication web)
    {
        web.UseAuthentication();
        web.UseAuthorization();
    }

    private void Secure(CookieBuilder cookie, string name)
    {
        cookie.Name = Prefix + name;
        cookie.HttpOnly = true;
        cookie.SameSite = SameSiteMode.Strict;
        cookie.SecurePolicy = isSecure ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
        cookie.Path = "/";
        cookie.IsEssential = true;
    }

    // An account that was taken out, or got another password or role, is out at its next request.
    private Task StillHolds(CookieValidatePrincipalContext context)
    {
        Account? account = accounts.Find(context.Principal?.Identity?.Name ?? "");
        if (account is null || !context.Principal!.HasClaim(StampClaim, account.Stamp)
            || context.Principal.IsInRole(Visitor.Keeper) != (account.Role == AccountRole.Keeper))
        {
            context.RejectPrincipal();
        }

        return Task.CompletedTask;
    }

    private static Task SendToSignIn(RedirectContext<CookieAuthenticationOptions> context)
    {
        HttpRequest request = context.Request;
        if (!HttpMethods.IsGet(request.Method) && !HttpMethods.IsHead(request.Method))
        {
            return PageShell.Trouble(context.HttpContext, Phrases.Say("account.sign-in-first"), StatusCodes.Status401Unauthorized).ExecuteAsync(context.HttpContext);
        }

        string back = request.Path + request.QueryString.Value;
        context.Response.Redirect($"{SignInFeature.Path}?{Reader.Language}={Catalogue.Current.Language.Code}&back={Uri.EscapeDataString(back)}");
        return Task.CompletedTask;
    }
}
