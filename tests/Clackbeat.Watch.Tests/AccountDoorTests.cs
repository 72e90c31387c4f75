using System.Net;
using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.RegularExpressions;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Watch.Accounts;
using Clackbeat.Watch.Overview;
using Clackbeat.Watch.Web;

namespace Clackbeat.Watch.Tests;

/// <summary>Who gets in, and who may do what: each asked for over a real socket, with the cookies a browser would send.</summary>
public sealed partial class AccountDoorTests : IDisposable
{
    private const string Password = "three long words";

    // Hashing is slow by intent, so the tests share two accounts.
    private static readonly Account Keeper = Passwords.Of("Anna", AccountRole.Keeper, Password);

    private static readonly Account Reader = Passwords.Of("Tom", AccountRole.Reader, Password);

    private readonly OneSeason _season = new();
    private readonly AccountFile _accounts;

    public AccountDoorTests()
    {
        _accounts = new AccountFile(_season["accounts.json"]);
        _accounts.Set(Keeper);
        _accounts.Set(Reader);
    }

    private string Ram { get; } = $"?ram={Uri.EscapeDataString(OneSeason.Ram)}";

    [Fact]
    public async Task A_stranger_sees_the_sign_in_page_and_nothing_else()
    {
        await using OverviewServer server = await Serve();
        using HttpClient stranger = Client(server);
        Assert.Equal("/sign-in?language=en&back=%2Fseason" + Uri.EscapeDataString(Ram), (await stranger.GetAsync("/season" + Ram)).Headers.Location!.OriginalString);
        Assert.Equal(HttpStatusCode.Redirect, (await stranger.GetAsync("/")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await Post(stranger, "/marks/add" + Ram, "", [("words", "x")])).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await stranger.GetAsync("/page/pages.css")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await SignIn(stranger, "Anna", "three short words")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await SignIn(stranger, "Nobody", Password)).StatusCode);
    }

    [Fact]
    public async Task A_reader_looks_and_is_refused_every_correction()
    {
        await using OverviewServer server = await Serve();
        using HttpClient tom = Client(server);
        Assert.Equal(HttpStatusCode.Redirect, (await SignIn(tom, "tom", Password)).StatusCode);
        string page = await tom.GetStringAsync("/season" + Ram);
        Assert.Contains("Tom, who may look", page, StringComparison.Ordinal);
        Assert.DoesNotContain("/marks/add", page, StringComparison.Ordinal);
        string proof = Proof(page);
        foreach (string path in new[] { "/marks/add", "/marks/change", "/bursts/remove", "/upkeep/done", "/undo" })
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await Post(tom, path + Ram, proof, [("words", "x"), ("why", "y"), ("number", "1")])).StatusCode);
        }

        Assert.Single(_season.Store.Marks(OneSeason.Ram));
        Assert.Empty(_season.Store.Journal(OneSeason.Ram));
    }

    [Fact]
    public async Task A_keeper_adds_changes_and_takes_out_and_the_journal_says_who()
    {
        await using OverviewServer server = await Serve();
        using HttpClient anna = Client(server);
        await SignIn(anna, "Anna", Password);
        string proof = Proof(await anna.GetStringAsync("/season" + Ram));
        Task<HttpResponseMessage> Do(string path, params (string, string)[] fields) => Post(anna, path + Ram, proof, fields);
        Assert.Equal(HttpStatusCode.Redirect, (await Do("/marks/add", ("at", "2026-04-10T10:30"), ("words", "cleaned <strainer>"))).StatusCode);
        MaintenanceMark added = _season.Store.Marks(OneSeason.Ram).Single(m => m.Words == "cleaned <strainer>");
        await Do("/marks/change", ("was-at", added.AtUtc.ToString("O")), ("was-words", added.Words), ("at", ""), ("words", "cleaned the strainer"), ("why", "a slip"), ("do", "change"));
        Assert.Contains(_season.Store.Marks(OneSeason.Ram), m => m.Words == "cleaned the strainer" && m.AtUtc == added.AtUtc);

        int before = _season.Store.States(OneSeason.Ram, TimeSpanUtc.All).Count;
        SeasonBurst burst = _season.Store.Bursts(OneSeason.Ram, TimeSpanUtc.All).First();
        string day = burst.StartUtc.LocalDateTime.ToString("yyyy-MM-dd");
        await Do("/bursts/remove", ("burst", Convert.ToHexString(burst.SourceHash)), ("day", day), ("why", "held by hand"));
        Assert.Equal(before - 1, _season.Store.States(OneSeason.Ram, TimeSpanUtc.All).Count);
        IReadOnlyList<JournalEntry> journal = _season.Store.Journal(OneSeason.Ram);
        Assert.Equal([JournalAction.MarkAdded, JournalAction.MarkChanged, JournalAction.BurstRemoved], journal.Select(j => j.Action));
        Assert.All(journal, j => Assert.Equal("Anna", j.Who));
        Assert.Equal("held by hand", journal[^1].Why);
        await Do("/undo", ("number", journal[^1].Number.ToString()));
        Assert.Equal(before, _season.Store.States(OneSeason.Ram, TimeSpanUtc.All).Count);
        await Do("/undo", ("number", journal[1].Number.ToString()));
        await Do("/undo", ("number", journal[0].Number.ToString()));
        Assert.Equal("new rubber", _season.Store.Marks(OneSeason.Ram).Single().Words);
    }

    [Fact]
    public async Task A_form_without_its_proof_or_from_another_page_does_nothing()
    {
        await using OverviewServer server = await Serve();
        using HttpClient anna = Client(server);
        await SignIn(anna, "Anna", Password);
        Assert.Equal(HttpStatusCode.BadRequest, (await Post(anna, "/marks/add" + Ram, "made-up", [("words", "x")])).StatusCode);
        string proof = Proof(await anna.GetStringAsync("/season" + Ram));
        Assert.Equal(HttpStatusCode.Forbidden, (await Post(anna, "/marks/add" + Ram, proof, [("words", "x")], "https://elsewhere.example")).StatusCode);
        Assert.Single(_season.Store.Marks(OneSeason.Ram));
    }

    [Fact]
    public async Task After_five_tries_even_the_right_password_has_to_wait_and_other_accounts_need_not()
    {
        await using OverviewServer server = await Serve();
        using HttpClient stranger = Client(server);
        for (int i = 0; i < SignInLimits.OfPair; i++)
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await SignIn(stranger, "Anna", "")).StatusCode);
        }

        HttpResponseMessage late = await SignIn(stranger, "ANNA", Password);
        Assert.Equal(HttpStatusCode.TooManyRequests, late.StatusCode);
        Assert.NotNull(late.Headers.RetryAfter);
        Assert.Equal(HttpStatusCode.Redirect, (await SignIn(stranger, "Tom", Password)).StatusCode);
    }

    [Fact]
    public async Task An_account_that_is_taken_out_is_out_at_the_next_request()
    {
        await using OverviewServer server = await Serve();
        using HttpClient tom = Client(server);
        await SignIn(tom, "Tom", Password);
        Assert.Equal(HttpStatusCode.OK, (await tom.GetAsync("/")).StatusCode);
        _accounts.Remove("Tom");
        Assert.Equal(HttpStatusCode.Redirect, (await tom.GetAsync("/")).StatusCode);
    }

    [Fact]
    public async Task Over_TLS_the_cookies_are_secure_and_only_names_of_the_certificate_are_answered()
    {
        string pem = _season["rams.pem"];
        WriteCertificate(pem);
        await using OverviewServer server = await Serve(new PageReach(0) { Certificate = new ServerCertificate(pem, null, null) });
        using HttpClient client = Client(server, "https");
        client.DefaultRequestHeaders.Host = "rams.example";
        HttpResponseMessage page = await client.GetAsync("/sign-in");
        string cookie = page.Headers.GetValues("Set-Cookie").Single();
        Assert.StartsWith("__Host-", cookie, StringComparison.Ordinal);
        Assert.Contains("secure; samesite=strict; httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("frame-ancestors 'none'", page.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        Assert.Equal("max-age=31536000", page.Headers.GetValues("Strict-Transport-Security").Single());
        client.DefaultRequestHeaders.Host = "evil.example";
        Assert.Equal(HttpStatusCode.MisdirectedRequest, (await client.GetAsync("/sign-in")).StatusCode);
    }

    /// <summary>What a proxy says counts only if it is the one that was named, and only of TLS.</summary>
    [Theory]
    [InlineData("127.0.0.1", "https", HttpStatusCode.OK)]
    [InlineData("127.0.0.1", "http", HttpStatusCode.Forbidden)]
    [InlineData("127.0.0.1", "", HttpStatusCode.Forbidden)]
    [InlineData("127.0.0.9", "https", HttpStatusCode.Forbidden)]
    public async Task Behind_a_proxy_only_its_requests_over_TLS_are_answered(string proxy, string scheme, HttpStatusCode status)
    {
        await using OverviewServer server = await Serve(new PageReach(0) { Proxy = IPAddress.Parse(proxy), PublicName = "rams.example" });
        using HttpClient client = Client(server);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/sign-in");
        request.Headers.Host = "rams.example";
        request.Headers.Add("X-Forwarded-For", "203.0.113.7");
        request.Headers.Add("X-Forwarded-Proto", scheme);
        Assert.Equal(status, (await client.SendAsync(request)).StatusCode);
    }

    [Fact]
    public async Task Nobody_elsewhere_is_served_without_accounts()
    {
        var reach = new PageReach(0) { Proxy = IPAddress.Loopback, PublicName = "rams.example" };
        InputException refused = await Assert.ThrowsAsync<InputException>(() => OverviewServer.Start(_season.Options(), reach));
        Assert.Contains("overview account add", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_file_of_accounts_keeps_hashes_and_is_its_owners_alone()
    {
        string file = _season["accounts.json"];
        string text = File.ReadAllText(file);
        Assert.DoesNotContain(Password, text, StringComparison.Ordinal);
        Assert.Contains("\"role\": \"keeper\"", text, StringComparison.Ordinal);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        }

        File.WriteAllText(file, "{}");
        Assert.Throws<InputException>(_accounts.All);
    }

    public void Dispose() => _season.Dispose();

    private Task<OverviewServer> Serve(PageReach? reach = null) => OverviewServer.Start(_season.Options() with { Accounts = _accounts }, reach ?? new PageReach(0));

    private static HttpClient Client(OverviewServer server, string scheme = "http")
    {
        var handler = new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            CookieContainer = new CookieContainer(),
            SslOptions = new SslClientAuthenticationOptions { RemoteCertificateValidationCallback = (_, certificate, _, _) => certificate?.Subject == "CN=rams.example" },
        };
        return new HttpClient(handler) { BaseAddress = new Uri($"{scheme}://127.0.0.1:{server.Port}") };
    }

    private static async Task<HttpResponseMessage> SignIn(HttpClient client, string name, string password) =>
        await Post(client, "/sign-in", Proof(await client.GetStringAsync("/sign-in")), [("name", name), ("password", password)]);

    private static Task<HttpResponseMessage> Post(HttpClient client, string address, string proof, IEnumerable<(string Name, string Value)> fields, string? origin = null)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, address)
        {
            Content = new FormUrlEncodedContent(fields.Append(("proof", proof)).Select(f => KeyValuePair.Create(f.Item1, f.Item2))),
        };
        request.Headers.Add("Origin", origin ?? client.BaseAddress!.GetLeftPart(UriPartial.Authority));
        return client.SendAsync(request);
    }

    private static string Proof(string page) => ProofField().Match(page).Groups[1].Value;

    private static void WriteCertificate(string path)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=rams.example", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName("rams.example");
        request.CertificateExtensions.Add(names.Build());
        using X509Certificate2 certificate = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        File.WriteAllText(path, $"{certificate.ExportCertificatePem()}\n{key.ExportPkcs8PrivateKeyPem()}\n");
    }

    [GeneratedRegex("name=\"proof\" value=\"([^\"]+)\"")]
    private static partial Regex ProofField();
}
