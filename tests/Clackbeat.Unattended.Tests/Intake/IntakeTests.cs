using System.Net;
using System.Text;
using Clackbeat.Season.Packets;
using Clackbeat.Season.Store;
using Clackbeat.Unattended.Forwarding;
using Clackbeat.Unattended.Intake;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Unattended.Tests.Bench;

namespace Clackbeat.Unattended.Tests.Intake;

/// <summary>Bursts of far computers on their way into one store, over real lines that break.</summary>
public sealed class IntakeTests : IDisposable
{
    private static readonly Dictionary<string, IntakeSite> Sites = new[] { "mill", "ford" }.ToDictionary(
        name => name, name => new IntakeSite(name, SiteDoor.Hash(name, FarSite.Secret), [name]));

    private static readonly string Right = "Basic " + Convert.ToBase64String(Encoding.UTF8.GetBytes($"mill:{FarSite.Secret}"));

    private readonly TemporaryFolder _folder = new();
    private readonly List<LogNews> _news = [];
    private bool _storeIsAway;

    public void Dispose() => _folder.Dispose();

    /// <summary>Each writer logs what it can while the line of one is cut in the middle of a packet, again and again, and mended at last.</summary>
    [Fact]
    public async Task Two_writers_one_server_and_one_pulled_network_each_burst_arrives_once()
    {
        await using Receiver receiver = await Receive();
        using var line = new CuttableLine(("127.0.0.1", receiver.Port));
        using FarSite mill = Far("mill", line.Port);
        using FarSite ford = Far("ford", receiver.Port);
        int number = 0;
        foreach (int bytes in new[] { 200, 2500, 4300, 6000 })
        {
            for (int i = 0; i < 5; i++, number++)
            {
                mill.Log(number);
                ford.Log(number);
            }

            line.CutAfter(bytes);
            Assert.True(await ford.SendAll());
            await mill.SendAll();
            line.Mend();
        }

        mill.Mark("new rubber");
        mill.Log(3);
        Assert.True(await mill.SendAll() && await ford.SendAll());
        Assert.Equal((0, 0), (mill.Waiting, ford.Waiting));
        using SqliteSeasonStore store = Store();
        Assert.Equal(["ford", "mill"], store.Rams());
        foreach (string ram in store.Rams())
        {
            Assert.Equal(Enumerable.Range(0, number).Select(n => LogBench.Start.AddMinutes(15 * n)), store.States(ram, TimeSpanUtc.All).Select(s => s.AtUtc));
        }

        Assert.Equal("new rubber", Assert.Single(store.Marks("mill")).Words);
        Assert.Contains(mill.News, n => n.IsTrouble && n.Words.Contains("forward.db", StringComparison.Ordinal));
        Assert.Contains(mill.News, n => !n.IsTrouble);
        Assert.Empty(ford.News);

        // What arrives is what was logged, to the last figure.
        SeasonBurst sent = FarSite.Burst("mill", 7);
        SeasonBurst came = store.Bursts("mill", TimeSpanUtc.All).Single(b => b.SourceHash.SequenceEqual(sent.SourceHash));
        Assert.Equal(sent.Figures, came.Figures);
        Assert.Equal(sent.Conditions, came.Conditions);
        Assert.Equal((sent.StartUncertaintyS, sent.Source), (came.StartUncertaintyS, came.Source));
        Assert.Equal(sent.Beats.Select(b => b.PeakPa), came.Beats.Select(b => b.PeakPa));
    }

    [Fact]
    public async Task While_the_receivers_store_is_away_everything_waits_at_the_sender()
    {
        await using Receiver receiver = await Receive();
        using FarSite mill = Far("mill", receiver.Port);
        mill.Log(1);
        _storeIsAway = true;
        Assert.False(await mill.SendAll());
        Assert.Equal(1, mill.Waiting);
        Assert.Contains("503", Assert.Single(mill.News).Words, StringComparison.Ordinal);
        _storeIsAway = false;
        Assert.True(await mill.SendAll());
        Assert.Equal(0, mill.Waiting);
    }

    [Fact]
    public async Task A_ram_that_a_site_may_not_send_waits_and_is_told_at_both_ends()
    {
        await using Receiver receiver = await Receive();
        using FarSite mill = Far("mill", receiver.Port);
        mill.Log(1, "ford");
        Assert.False(await mill.SendAll());
        Assert.Equal((1, 0), (mill.Waiting, mill.Refused));
        Assert.Contains("may not send bursts of \"ford\"", Assert.Single(mill.News).Words, StringComparison.Ordinal);
        Assert.Contains(_news, n => n.IsTrouble && n.Words.Contains("may not send", StringComparison.Ordinal));
        using SqliteSeasonStore store = Store();
        Assert.Empty(store.Rams());
    }

    /// <summary>A burst that the receiver can't take, here one of 1999, is put aside and holds up none of the others.</summary>
    [Fact]
    public async Task A_burst_that_is_refused_for_good_holds_up_no_other()
    {
        await using Receiver receiver = await Receive();
        using FarSite mill = Far("mill", receiver.Port);
        mill.Log(-15 * 96 * 365);
        mill.Log(-28 * 96 * 365);
        mill.Log(1);
        Assert.True(await mill.SendAll());
        Assert.Equal((0, 1), (mill.Waiting, mill.Refused));
        using SqliteSeasonStore store = Store();
        Assert.Equal(2, store.States("mill", TimeSpanUtc.All).Count);
        Assert.Contains(mill.News, n => n.IsTrouble && n.Words.Contains("start", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_certificate_that_nobody_vouches_for_is_not_given_the_secret()
    {
        await using Receiver receiver = await Receive();
        using var mill = new FarSite(_folder, "mill", s => new WebCarrier(s), new Uri($"https://localhost:{receiver.Port}"));
        mill.Log(1);
        Assert.False(await mill.SendAll());
        Assert.Empty(_news);
    }

    [Fact]
    public async Task What_is_no_packet_or_from_nobody_is_refused()
    {
        (string Who, string Body, int Status)[] cases =
        [
            ("Basic bWlsbDp3cm9uZw==", "{}", 401),
            ("Basic !!", "{}", 401),
            ("Bearer x", "{}", 401),
            ("", "{}", 401),
            ("right", "{}", 422),
            ("right", "not json", 422),
            ("right", "{\"schema\":\"clackbeat.packet/1\",\"bursts\":[{\"ram\":\"mill\"}]}", 422),
            ("right", "{\"schema\":\"clackbeat.packet/1\",\"bursts\":[null]}", 422),
            ("right", "{\"schema\":\"clackbeat.packet/1\",\"later\":{\"key\":1}}", 200),
            ("right", "large", 413),
        ];
        await using Receiver receiver = await Receive(tls: false);
        foreach ((string who, string body, int status) in cases)
        {
            byte[] bytes = body == "large" ? new byte[PacketLimits.Bytes + 1] : Encoding.UTF8.GetBytes(body);
            Assert.Equal((body, status), (body, (int)await Post(receiver.Port, who == "right" ? Right : who, bytes)));
        }

        using SqliteSeasonStore store = Store();
        Assert.Empty(store.Rams());
    }

    [Fact]
    public async Task Who_guesses_must_wait_and_a_sender_that_is_known_need_not()
    {
        await using Receiver receiver = await Receive(tls: false);
        string wrong = "Basic " + Convert.ToBase64String("mill:guess"u8);
        byte[] packet = PacketWriter.Write(new BurstPacket([FarSite.Burst("mill", 1)], []));
        Assert.Equal(HttpStatusCode.OK, await Post(receiver.Port, Right, packet));
        for (int i = 0; i < SiteDoor.MostWrong; i++)
        {
            Assert.Equal(HttpStatusCode.Unauthorized, await Post(receiver.Port, wrong, packet));
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, await Post(receiver.Port, wrong, packet));
        Assert.Equal(HttpStatusCode.OK, await Post(receiver.Port, Right, packet));
        Assert.DoesNotContain(FarSite.Secret, Sites["mill"].SecretHash, StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task Through_a_broker_a_packet_counts_as_sent_only_when_the_store_has_it()
    {
        Skip.IfNot(Broker.IsThere, "mosquitto is not installed");
        using var broker = Broker.Start(_folder, "mill", FarSite.Secret);
        var place = new BrokerPlace("127.0.0.1", broker.Port, false, "clackbeat/intake");
        using var mill = new FarSite(_folder, "mill", s => new BrokerCarrier(s, TimeSpan.FromSeconds(1)), broker: place);
        mill.Log(1);
        mill.Log(2);

        // The broker takes the packet, and nobody answers.
        Assert.False(await mill.SendAll());
        Assert.Equal(2, mill.Waiting);
        using var stop = new CancellationTokenSource();
        using IntakeDesk desk = Desk();
        var subscriber = new IntakeSubscriber(new IntakeBroker(place, "test", "mill", new Secret("CLACKBEAT_TEST_mill", null), null), desk);
        Task running = subscriber.Run(stop.Token);
        await subscriber.Listening.WaitAsync(TimeSpan.FromSeconds(10));
        mill.Log(3);
        Assert.True(await mill.SendAll());
        _storeIsAway = true;
        mill.Log(4);
        Assert.False(await mill.SendAll());
        _storeIsAway = false;
        Assert.True(await mill.SendAll());
        Assert.Equal(0, mill.Waiting);
        await stop.CancelAsync();
        await running;
        using SqliteSeasonStore store = Store();
        Assert.Equal(4, store.States("mill", TimeSpanUtc.All).Count);
    }

    [Fact]
    public void The_intakes_template_works_when_its_marks_are_taken_away()
    {
        string open = IntakeFile.Template.Replace("# certificate", "certificate", StringComparison.Ordinal).Replace("# key", "key", StringComparison.Ordinal);
        TestCertificate.Write(_folder["server.pem"], _folder["server-key.pem"]);
        IntakeSettings settings = IntakeFile.Parse(open, "intake.toml", _folder.Path);
        Assert.Equal((8443, _folder["server.pem"], _folder["server-key.pem"]), (settings.Web!.Port, settings.Web.Certificate, settings.Web.Key));
        Assert.True(settings.Sites["mill"].May("my ram"));
        Assert.False(settings.Sites["mill"].May("another"));
        Assert.Null(IntakeFile.Parse(IntakeFile.Template, "intake.toml", _folder.Path).Broker);
    }

    private FarSite Far(string name, int port) =>
        new(_folder, name, s => new WebCarrier(s), new Uri($"https://localhost:{port}"), trusted: _folder["server.pem"]);

    private SqliteSeasonStore Store() => SqliteSeasonStore.Open(_folder["season.db"], create: true);

    private IntakeDesk Desk() => new(
        () => new FailingStore(Store(), () => _storeIsAway), Sites, TimeProvider.System, _news.Add);

    private async Task<Receiver> Receive(bool tls = true)
    {
        TestCertificate.Write(_folder["server.pem"], _folder["server-key.pem"]);
        IntakeDesk desk = Desk();
        var web = new IntakeWeb(IPAddress.Loopback, 0, tls ? _folder["server.pem"] : null, tls ? _folder["server-key.pem"] : null);
        return new Receiver(desk, await IntakeServer.Start(web, desk, new SiteDoor(Sites, TimeProvider.System)));
    }

    private static async Task<HttpStatusCode> Post(int port, string authorization, byte[] body)
    {
        using var client = new HttpClient();
        using var request = new HttpRequestMessage(HttpMethod.Post, $"http://127.0.0.1:{port}/v1/packets") { Content = new ByteArrayContent(body) };
        request.Headers.TryAddWithoutValidation("Authorization", authorization);

        // A server that refuses closes the line, which a body on its way would break.
        request.Headers.ExpectContinue = true;
        using HttpResponseMessage answer = await client.SendAsync(request);
        return answer.StatusCode;
    }

    private sealed record Receiver(IntakeDesk Desk, IntakeServer Server) : IAsyncDisposable
    {
        public int Port => Server.Port;

        public async ValueTask DisposeAsync()
        {
            await Server.DisposeAsync();
            Desk.Dispose();
        }
    }
}
