using System.Text.RegularExpressions;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Tests.Bench;

namespace Clackbeat.Unattended.Tests.Settings;

public sealed class LogFileTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public LogFileTests() => File.WriteAllText(_folder["my-ram.toml"], SiteTemplate.Text(Units.Metric));

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_template_is_a_file_that_works_and_says_what_holds_without_it()
    {
        LogSettings written = LogFile.Parse(LogFile.Template, "log.toml", _folder.Path);
        LogSettings bare = LogFile.Parse("[[ram]]\nsite = \"my-ram.toml\"\nport = \"/dev/ttyUSB0\"\n", "log.toml", _folder.Path);
        Assert.Equal(bare with { Rams = [], LookIn = [] }, written with { Rams = [], LookIn = [] });
        Assert.Equal(_folder["season.db"], written.Store);
        Assert.Equal("/dev/ttyUSB0", Assert.Single(written.Rams).Port);
    }

    [Fact]
    public void Every_remark_of_the_template_that_is_a_key_works_when_its_mark_is_taken_away()
    {
        TestCertificate.Write(_folder["their-server.pem"]);
        string whole = Regex.Replace(LogFile.Template, @"^# (?=\[alerts|\[forward|[a-z_]+ = )", "", RegexOptions.Multiline);
        LogSettings settings = LogFile.Parse(whole, "log.toml", _folder.Path);
        Assert.Equal(["command", "webhook", "email", "mqtt"], Delivery.Ways.Of(settings.Alerts).Select(w => w.Name));
        Assert.Equal(["/usr/local/bin/tell-me", "--loud"], settings.Alerts.Command!.Run);
        Assert.Equal((587, 8883), (settings.Alerts.Mail!.Port, settings.Alerts.Mqtt!.Port));
        Assert.Equal(_folder["mail-password"], settings.Alerts.Mail.Password!.File);
        Assert.Equal("24dcc3a1b2c30001", settings.Rams[0].Logger);
        Assert.Equal(["/dev/ttyUSB*"], settings.LookIn);
        Assert.Equal(("mill", new Uri("https://rams.example.org:8443"), null), (settings.Forward!.Site, settings.Forward.Web, settings.Forward.Broker));
    }

    [Theory]
    [InlineData("[alerts.command]\nrun = []\n", "name a program")]
    [InlineData("[alerts.webhook]\nurl = \"ftp://x\"\n", "begins with https://")]
    [InlineData("[alerts.email]\nserver = \"m\"\nfrom = \"a@b.org\"\nto = [\"nobody\"]\n", "\"nobody\" is no mail address")]
    [InlineData("[alerts.email]\nserver = \"m\"\nsecurity = \"none\"\nfrom = \"a@b.org\"\nto = \"c@d.org\"\nuser = \"a\"\npassword_env = \"P\"\n", "travel in the open")]
    [InlineData("[alerts.mqtt]\nserver = \"m\"\ntopic = \"a/#\"\n", "no + and no #")]
    [InlineData("[alerts.mqtt]\nserver = \"m\"\nuser = \"a\"\ntls = true\n", "needs its password")]
    [InlineData("[forward]\nto = \"http://far.example.org\"\nsite = \"mill\"\nsecret_env = \"S\"\n", "travel in the open")]
    [InlineData("[forward]\nto = \"ftp://x\"\nsite = \"mill\"\nsecret_env = \"S\"\n", "begins with https:// or mqtts://")]
    [InlineData("[forward]\nto = \"https://x\"\nsite = \"The Mill\"\nsecret_env = \"S\"\n", "small letters")]
    [InlineData("[forward]\nto = \"https://x\"\nsite = \"mill\"\n", "secret_env or secret_file")]
    [InlineData("[forward]\nto = \"https://x\"\nsite = \"mill\"\nsecret_env = \"S\"\ntrusted = \"none.pem\"\n", "no certificate")]
    [InlineData("[alerts.mqtt]\nserver = \"m\"\npassword = \"secret\"\n", "there is no key alerts.mqtt.password")]
    public void A_way_that_cannot_work_is_refused(string text, string words) =>
        A_mistake_is_told_with_its_line_and_what_to_write(text, words);

    [Fact]
    public void A_store_on_a_server_is_no_path()
    {
        LogSettings settings = LogFile.Parse("[log]\nstore = \"Host=db;Database=rams\"\n[[ram]]\nsite = \"my-ram.toml\"\nlogger = \"00AA\"\n", "log.toml", _folder.Path);
        Assert.Equal("Host=db;Database=rams", settings.Store);
        Assert.Equal("00aa", settings.Rams[0].Logger);
    }

    [Theory]
    [InlineData("[log]\nevry = \"15 min\"\n", "line 2: there is no key log.evry. Did you mean log.every?")]
    [InlineData("[log]\nevery = \"15\"\n", "line 2: log.every")]
    [InlineData("[log]\nevery = \"30 s\"\n", "shorter than the time")]
    [InlineData("[log]\nunits = \"imperial\"\n", "write one of \"metric\", \"us\"")]
    [InlineData("[disk]\nmost = \"8 gigs\"\n", "write something like \"8 GB\"")]
    [InlineData("[between]\nwatch = \"yes\"\n", "watch = true or watch = false")]
    [InlineData("[between]\nextra_a_day = 5000\n", "from 0 to 1000")]
    [InlineData("[log\n", "line 1")]
    public void A_mistake_is_told_with_its_line_and_what_to_write(string text, string words)
    {
        string whole = text + "[[ram]]\nsite = \"my-ram.toml\"\nport = \"/dev/ttyUSB0\"\n";
        InputException refused = Assert.Throws<InputException>(() => LogFile.Parse(whole, "log.toml", _folder.Path));
        Assert.Contains(words, refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "no ram is named")]
    [InlineData("[[ram]]\nport = \"/dev/ttyUSB0\"\n", "needs its site file")]
    [InlineData("[[ram]]\nsite = \"my-ram.toml\"\n", "needs a port, or the id of its logger")]
    [InlineData("[[ram]]\nsite = \"other.toml\"\nport = \"/dev/ttyUSB0\"\n", "there is no such file")]
    [InlineData("[[ram]]\nsite = \"my-ram.toml\"\nport = \"a\"\n[[ram]]\nsite = \"my-ram.toml\"\nport = \"b\"\n", "two rams are called")]
    public void A_ram_that_cannot_be_logged_is_refused(string text, string words)
    {
        InputException refused = Assert.Throws<InputException>(() => LogFile.Parse(text, "log.toml", _folder.Path));
        Assert.Contains(words, refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("8 GB", 8_000_000_000)]
    [InlineData("1.5gb", 1_500_000_000)]
    [InlineData("500 MB", 500_000_000)]
    [InlineData("64kB", 64_000)]
    public void Sizes_are_read_in_powers_of_ten(string text, long bytes)
    {
        Assert.True(ByteSize.TryParse(text, out long read));
        Assert.Equal(bytes, read);
    }

    [Fact]
    public void The_unit_opens_the_logs_own_folders_and_quotes_what_holds_blanks()
    {
        LogSettings settings = LogFile.Parse(LogFile.Template, "log.toml", _folder.Path);
        string unit = ServiceText.Systemd(settings with { Store = "/srv/my rams/season.db", Folder = "/srv/my rams/log" }, "/opt/clackbeat", "/etc/a%b.toml", "ram");
        Assert.Contains("ReadWritePaths=\"/srv/my rams\"\n", unit, StringComparison.Ordinal);
        Assert.Contains("ExecStart=/opt/clackbeat log --config /etc/a%%b.toml\n", unit, StringComparison.Ordinal);
        Assert.Contains("User=ram\n", unit, StringComparison.Ordinal);
        Assert.DoesNotContain("{{", unit, StringComparison.Ordinal);
    }
}
