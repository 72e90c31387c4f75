using System.Text;
using System.Text.Json.Nodes;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Tests.Bench;
using MQTTnet;

namespace Clackbeat.Unattended.Tests.Alerts;

/// <summary>Each way against a receiver of its kind: a program, a web server, a mail server, a real broker.</summary>
public sealed class DeliveryTests : IDisposable
{
    private static readonly AlertMessage Message = new()
    {
        Id = "mill-stopped-1-raised",
        Alert = 7,
        Event = "raised",
        Ram = "Mühle; $(touch owned) \"1\"",
        Kind = "stopped",
        SinceUtc = new DateTimeOffset(2026, 3, 1, 6, 30, 0, TimeSpan.Zero),
        AtUtc = new DateTimeOffset(2026, 3, 1, 6, 45, 0, TimeSpan.Zero),
        Title = "Mühle: it has stopped",
        Text = "It hasn't been beating since 06:30.\nCheck first: `reboot`.",
        Value = 1.25,
        Limit = 1,
    };

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [SkippableFact]
    public async Task A_command_gets_the_alert_in_variables_and_on_its_input_and_no_word_of_it_is_run()
    {
        Skip.If(OperatingSystem.IsWindows(), "needs a shell script");
        string script = Script("printf '%s|%s|%s\\n' \"$CLACKBEAT_RAM\" \"$CLACKBEAT_EVENT\" \"$1\" > \"$2\"; cat >> \"$2\"");
        await new CommandWay(new CommandSettings([script, "; rm -rf *", _folder["got"]])).Send(Message, CancellationToken.None);
        string[] got = File.ReadAllLines(_folder["got"]);
        Assert.Equal("Mühle; $(touch owned) \"1\"|raised|; rm -rf *", got[0]);
        Assert.Equal(Message.Text, (string?)JsonNode.Parse(got[1])!["text"]);
        Assert.False(File.Exists(_folder["owned"]));
    }

    [SkippableFact]
    public async Task A_command_that_fails_or_is_missing_is_told()
    {
        Skip.If(OperatingSystem.IsWindows(), "needs a shell script");
        var failing = new CommandWay(new CommandSettings([Script("echo no paper >&2; exit 3")]));
        Assert.Contains("ended with 3. no paper", (await Assert.ThrowsAsync<DeliveryException>(() => failing.Send(Message, CancellationToken.None))).Message, StringComparison.Ordinal);
        var missing = new CommandWay(new CommandSettings([_folder["missing"]]));
        Assert.Contains("can't be started", (await Assert.ThrowsAsync<DeliveryException>(() => missing.Send(Message, CancellationToken.None))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_webhook_gets_json_with_the_token_and_a_refusal_is_told()
    {
        using var web = new WebSink();
        string token = _folder["token"];
        File.WriteAllText(token, "s3cret\n");
        Close(token);
        var way = new WebhookWay(new WebhookSettings(web.Url, new Secret(null, token)));
        await way.Send(Message, CancellationToken.None);
        (string body, string? authorization, string? key) = Assert.Single(web.Posts);
        JsonNode json = JsonNode.Parse(body)!;
        Assert.Equal(("clackbeat.alert/1", "stopped", 1.25, "2026-03-01T06:30:00Z"), ((string?)json["schema"], (string?)json["kind"], (double?)json["value"], (string?)json["since"]));
        Assert.Equal(("Bearer s3cret", Message.Id), (authorization, key));
        web.Status = 503;
        Assert.Contains("503", (await Assert.ThrowsAsync<DeliveryException>(() => way.Send(Message, CancellationToken.None))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_e_mail_arrives_with_subject_text_and_one_id_however_often_it_is_sent()
    {
        using var server = new MailSink();
        Environment.SetEnvironmentVariable("CLACKBEAT_TEST_PASSWORD", "pass word");
        var way = new MailWay(new MailSettings(
            "127.0.0.1", server.Port, MailSecurity.None, "ram@example.org", ["keeper@example.org", "other@example.org"], "ram", new Secret("CLACKBEAT_TEST_PASSWORD", null)));
        await way.Send(Message, CancellationToken.None);
        await way.Send(Message, CancellationToken.None);
        Assert.Equal(2, server.Mails.Count);
        var mails = server.Mails.Select(m => MimeKit.MimeMessage.Load(new MemoryStream(Encoding.UTF8.GetBytes(m)))).ToList();
        Assert.Equal("Mühle: it has stopped", mails[0].Subject);
        Assert.Contains("since 06:30", mails[0].TextBody, StringComparison.Ordinal);
        Assert.Contains("log ack 7", mails[0].TextBody, StringComparison.Ordinal);
        Assert.Equal(2, mails[0].To.Count);
        Assert.Equal(mails[0].MessageId, mails[1].MessageId);
        Assert.Equal("|ram|pass word", server.Accounts[0]);
        server.IsBusy = true;
        Assert.Contains("try again later", (await Assert.ThrowsAsync<DeliveryException>(() => way.Send(Message, CancellationToken.None))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_mail_server_that_cannot_encrypt_or_whose_certificate_nobody_vouches_for_gets_nothing()
    {
        using var open = new MailSink();
        using var secure = new MailSink(tls: true);
        foreach (MailSink server in new[] { open, secure })
        {
            var way = new MailWay(new MailSettings("localhost", server.Port, MailSecurity.StartTls, "ram@example.org", ["keeper@example.org"], null, null));
            await Assert.ThrowsAsync<DeliveryException>(() => way.Send(Message, CancellationToken.None));
            Assert.Empty(server.Mails);
        }
    }

    [SkippableFact]
    public async Task A_broker_gets_the_alert_and_keeps_it_for_who_comes_later()
    {
        Skip.IfNot(Broker.IsThere, "mosquitto is not installed");
        using var broker = Broker.Start(_folder, "ram", "secret");
        Environment.SetEnvironmentVariable("CLACKBEAT_TEST_MQTT", "secret");
        var settings = new MqttSettings("127.0.0.1", broker.Port, false, "farm/clackbeat", "ram", new Secret("CLACKBEAT_TEST_MQTT", null));
        await new MqttWay(settings).Send(Message with { Ram = "mill" }, CancellationToken.None);

        // Only now somebody listens: a retained message waits for them.
        var got = new TaskCompletionSource<(string Topic, string Payload)>();
        using IMqttClient listener = new MqttClientFactory().CreateMqttClient();
        listener.ApplicationMessageReceivedAsync += e =>
        {
            got.TrySetResult((e.ApplicationMessage.Topic, e.ApplicationMessage.ConvertPayloadToString()));
            return Task.CompletedTask;
        };
        await listener.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", broker.Port).WithCredentials("ram", "secret").Build());
        await listener.SubscribeAsync("farm/#");
        (string topic, string payload) = await got.Task.WaitAsync(TimeSpan.FromSeconds(10));
        Assert.Equal("farm/clackbeat/mill/stopped", topic);
        Assert.Equal("raised", (string?)JsonNode.Parse(payload)!["event"]);

        Environment.SetEnvironmentVariable("CLACKBEAT_TEST_MQTT", "wrong");
        await Assert.ThrowsAsync<DeliveryException>(() => new MqttWay(settings).Send(Message, CancellationToken.None));
    }

    [Fact]
    public async Task Who_is_not_there_is_told_as_such()
    {
        IWay[] ways =
        [
            new WebhookWay(new WebhookSettings(new Uri("http://127.0.0.1:9/"), null)),
            new MailWay(new MailSettings("127.0.0.1", 9, MailSecurity.None, "ram@example.org", ["keeper@example.org"], null, null)),
            new MqttWay(new MqttSettings("127.0.0.1", 9, false, "clackbeat", null, null)),
        ];
        foreach (IWay way in ways)
        {
            await Assert.ThrowsAsync<DeliveryException>(() => way.Send(Message, CancellationToken.None));
        }
    }

    [SkippableFact]
    public void A_password_file_that_others_may_read_is_refused()
    {
        Skip.If(OperatingSystem.IsWindows(), "has other rights");
        string file = _folder["password"];
        File.WriteAllText(file, "secret");
        Assert.Contains("chmod 600", Assert.Throws<Site.InputException>(() => new Secret(null, file).Read()).Message, StringComparison.Ordinal);
        Close(file);
        Assert.Equal("secret", new Secret(null, file).Read());
        Assert.DoesNotContain("secret", new Secret(null, file).ToString(), StringComparison.Ordinal);
    }

    [SkippableTheory]
    [InlineData(UnixFileMode.GroupRead)]
    [InlineData(UnixFileMode.GroupWrite)]
    [InlineData(UnixFileMode.OtherRead)]
    [InlineData(UnixFileMode.OtherWrite)]
    public void Any_one_right_of_others_on_a_password_file_is_one_too_many(UnixFileMode right)
    {
        Skip.If(OperatingSystem.IsWindows(), "has other rights");
        string file = _folder["password"];
        File.WriteAllText(file, "secret");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(file, UnixFileMode.UserRead | right);
        }

        Assert.Contains("chmod 600", Assert.Throws<Site.InputException>(() => new Secret(null, file).Read()).Message, StringComparison.Ordinal);
    }

    private static void Close(string file)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }
    }

    private string Script(string text)
    {
        string path = _folder[$"script{Guid.NewGuid():N}"];
        File.WriteAllText(path, $"#!/bin/sh\n{text}\n");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }

        return path;
    }
}
