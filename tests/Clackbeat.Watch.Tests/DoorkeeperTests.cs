using System.Net;
using System.Net.Http.Json;
using System.Net.Sockets;
using System.Text;
using Clackbeat.Site;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Web;

namespace Clackbeat.Watch.Tests;

/// <summary>Who may see the page, who may act on it, and what is refused. Each request goes over a real socket.</summary>
public sealed class DoorkeeperTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private static readonly string[] Changing =
        ["/recording/begin", "/recording/end", "/recording/mark", "/tuning/begin", "/tuning/open", "/tuning/do", "/baseline", "/check/begin", "/check/next", "/check/cancel"];

    private readonly string _folder = Directory.CreateTempSubdirectory("clackbeat-watch-").FullName;
    private readonly List<string> _codes = [];

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Without_a_session_the_lan_page_shows_only_the_way_in()
    {
        await using WatchServer server = await Start(isOpenToLan: true);
        using HttpClient client = Client(server);
        Assert.Contains("join.js", await client.GetStringAsync("/"), StringComparison.Ordinal);
        foreach (string address in new[] { "/live", "/report", "/report/1", "/recording/1", "/page/main.js", "/page/index.html", "/tuning/sheet.html", "/tuning/sheet.pdf" })
        {
            Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync(address)).StatusCode);
        }

        foreach (string address in Changing)
        {
            Assert.Equal(HttpStatusCode.Unauthorized, (await Post(client, address, new { words = "x" })).StatusCode);
        }
    }

    [Fact]
    public async Task The_code_lets_one_device_in_and_works_once()
    {
        await using WatchServer server = await Start(isOpenToLan: true);
        using HttpClient first = Client(server);
        string code = _codes.Single();
        HttpResponseMessage answer = await Post(first, "/session", new { code = $" {code[..3].ToLowerInvariant()}-{code[3..]} " });
        Assert.Equal(HttpStatusCode.NoContent, answer.StatusCode);
        string cookie = answer.Headers.GetValues("Set-Cookie").Single();
        Assert.Matches("^clackbeat=[0-9A-F]{64};", cookie); // 256 bits: no cookie is guessed.
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("main.js", await first.GetStringAsync("/"), StringComparison.Ordinal);

        using HttpClient second = Client(server);
        Assert.Equal(HttpStatusCode.Forbidden, (await Post(second, "/session", new { code })).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await second.GetAsync("/live")).StatusCode);
        Assert.Equal(2, _codes.Count);
        Assert.NotEqual(code, _codes[1]);
    }

    [Fact]
    public async Task Wrong_codes_are_refused_and_too_many_of_them_shut_the_door_even_to_the_right_one()
    {
        await using WatchServer server = await Start(isOpenToLan: true);
        using HttpClient client = Client(server);
        foreach (string? wrong in new[] { "AAAAAAA", "", null, new string('Z', 2000), "éééééé" })
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await Post(client, "/session", new { code = wrong })).StatusCode);
        }

        // Ten tries a minute against 30^7 codes: half of them are tried after some two thousand years. The number is written
        // out, since it is what keeps the door shut: a thousand a minute must not pass this test.
        for (int i = 5; i < 10; i++)
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await Post(client, "/session", new { code = "AAAAAAA" })).StatusCode);
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, (await Post(client, "/session", new { code = _codes[0] })).StatusCode);
    }

    [Theory]
    [InlineData("http://evil.example")]
    [InlineData("http://127.0.0.1:1")]
    [InlineData("null")]
    [InlineData("")]
    public async Task A_request_from_another_page_changes_nothing(string origin)
    {
        await using WatchServer server = await Start(isOpenToLan: false);
        using HttpClient client = Client(server);
        foreach (string address in Changing)
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await Post(client, address, new { words = "x" }, origin)).StatusCode);
        }
    }

    [Theory]
    [InlineData("cross-site")]
    [InlineData("same-site")]
    public async Task Another_page_may_not_even_listen(string site)
    {
        await using WatchServer server = await Start(isOpenToLan: false);
        using HttpClient client = Client(server);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/live");
        request.Headers.Add("Sec-Fetch-Site", site);
        Assert.Equal(HttpStatusCode.Forbidden, (await client.SendAsync(request)).StatusCode);
    }

    [Theory]
    [InlineData("evil.example")]
    [InlineData("clackbeat.evil.example:8080")]
    [InlineData("192.0.2.7")]
    public async Task A_foreign_name_for_this_address_is_refused(string host)
    {
        await using WatchServer server = await Start(isOpenToLan: false);
        Assert.StartsWith("HTTP/1.1 421", await Raw(server, "GET", "/", host), StringComparison.Ordinal);
        Assert.StartsWith("HTTP/1.1 421", await Raw(server, "GET", "/live", host), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/page/../../../../etc/passwd")]
    [InlineData("/page/..%2f..%2f..%2fetc%2fpasswd")]
    [InlineData("/page/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/page/....//....//etc/passwd")]
    [InlineData("/page//etc/passwd")]
    [InlineData("/page/..\\..\\etc\\passwd")]
    [InlineData("/recording/../../etc/passwd")]
    [InlineData("/recording/..%2f1")]
    [InlineData("/report/%2e%2e%2fetc%2fpasswd")]
    public async Task No_path_leads_out_of_the_page(string path)
    {
        await using WatchServer server = await Start(isOpenToLan: false);
        string answer = await Raw(server, "GET", path, $"127.0.0.1:{server.Port}");
        Assert.Matches("^HTTP/1.1 (400|404)", answer);
        Assert.DoesNotContain("root:", answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_answer_carries_the_headers_that_keep_other_pages_out()
    {
        await using WatchServer server = await Start(isOpenToLan: false);
        using HttpClient client = Client(server);
        foreach (string address in new[] { "/", "/page/main.js", "/nothing", "/recording/7" })
        {
            HttpResponseMessage answer = await client.GetAsync(address);
            string policy = answer.Headers.GetValues("Content-Security-Policy").Single();
            Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
            Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.Equal("no-referrer", answer.Headers.GetValues("Referrer-Policy").Single());
            Assert.False(answer.Headers.Contains("Server"));
            Assert.False(answer.Headers.Contains("Access-Control-Allow-Origin"));
        }
    }

    [SkippableFact]
    public async Task Without_lan_no_other_address_of_this_computer_answers()
    {
        IReadOnlyList<IPAddress> own = WatchServer.LanAddresses();
        Skip.If(own.Count == 0, "this machine is in no network");
        await using WatchServer server = await Start(isOpenToLan: false);
        using var client = new TcpClient();
        await Assert.ThrowsAsync<SocketException>(() => client.ConnectAsync(own[0], server.Port).WaitAsync(Patience));
    }

    [Fact]
    public async Task A_port_in_use_is_a_plain_error_that_says_what_to_do()
    {
        await using WatchServer server = await Start(isOpenToLan: false);
        InputException error = await Assert.ThrowsAsync<InputException>(() => Start(isOpenToLan: false, server.Port));
        Assert.Contains("--http", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_session_is_begun_by_a_whole_form_alone_and_its_name_leads_nowhere_else()
    {
        await using WatchServer server = await Start(isOpenToLan: false);
        using HttpClient client = Client(server);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/tuning/sheet.html")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await Post(client, "/tuning/open", new { file = "../../etc/passwd" })).StatusCode);
        Assert.Equal(HttpStatusCode.Conflict, (await Post(client, "/tuning/do", new { act = "choose", revision = 0, setting = "8" })).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await Post(client, "/tuning/do", new { act = "format-disk", revision = 0 })).StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Post(client, "/tuning/begin", new { knob = "stroke", low = "9", high = "4" })).StatusCode);
        Assert.Empty(Directory.GetFiles(_folder, "*.tune"));
        var form = new { knob = "stroke", unit = "mm", low = "4", high = "12", now = "8", aim = "most-delivered" };
        Assert.Equal(HttpStatusCode.OK, (await Post(client, "/tuning/begin", form)).StatusCode);
        Assert.Single(Directory.GetFiles(_folder, "*.tune"));
        Assert.Equal(HttpStatusCode.Conflict, (await Post(client, "/tuning/begin", form)).StatusCode);
    }

    [Fact]
    public async Task A_name_with_brackets_ends_no_block_of_the_page()
    {
        await using WatchServer server = await WatchServer.Start(new WatchOptions
        {
            Site = Rams.Site with { Name = "</script><script>alert(1)</script>" },
            Source = new MadeUpSource(),
            Port = 0,
        }).WaitAsync(Patience);
        using HttpClient client = Client(server);
        Assert.DoesNotContain("alert(1)</script>", await client.GetStringAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_request_larger_than_any_mark_is_refused()
    {
        await using WatchServer server = await Start(isOpenToLan: false);
        using HttpClient client = Client(server);

        // The longest form takes some hundreds of bytes; 4096 leave room, and a flood of large requests fills no memory.
        HttpResponseMessage answer = await Post(client, "/recording/mark", new { words = new string('x', 4100) });
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
    }

    private async Task<WatchServer> Start(bool isOpenToLan, int port = 0) => await WatchServer.Start(new WatchOptions
    {
        Site = Rams.Site,
        Source = new MadeUpSource(),
        Desk = new RecordingDesk(_folder, [], "test", TimeProvider.System),
        TuningFolder = _folder,
        Port = port,
        IsOpenToLan = isOpenToLan,
        NewCode = _codes.Add,
    }).WaitAsync(Patience);

    private static HttpClient Client(WatchServer server) => new() { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}"), Timeout = Patience };

    private static async Task<HttpResponseMessage> Post(HttpClient client, string address, object body, string? origin = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, address) { Content = JsonContent.Create(body) };
        string from = origin ?? client.BaseAddress!.GetLeftPart(UriPartial.Authority);
        if (from.Length > 0)
        {
            request.Headers.Add("Origin", from);
        }

        return await client.SendAsync(request);
    }

    // An HTTP client tidies paths up before it sends them; an attacker doesn't.
    private static async Task<string> Raw(WatchServer server, string method, string path, string host)
    {
        using var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, server.Port);
        NetworkStream stream = client.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"{method} {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"));
        using var reader = new StreamReader(stream);
        return await reader.ReadToEndAsync().WaitAsync(Patience);
    }
}
