using Clackbeat.Site;

namespace Clackbeat.Season.Tests;

/// <summary>The store in a file.</summary>
public sealed class SqliteStoreTests : SeasonStoreTests
{
    protected override StoreHome Home() => new FileHome();

    [Fact]
    public void Another_database_a_text_and_a_missing_file_are_refused_in_words()
    {
        using var other = new FileHome();
        other.Execute("CREATE TABLE song (name TEXT)");
        using var text = new FileHome();
        File.WriteAllText(text.Name, string.Concat(Enumerable.Repeat("t_s,p_kPa\n", 500)));
        using var missing = new FileHome();

        Assert.Contains("no season store", Refusal(other), StringComparison.Ordinal);
        Assert.Contains("no season store", Refusal(text), StringComparison.Ordinal);
        Assert.Contains("no such season store", Refusal(missing), StringComparison.Ordinal);
        Assert.False(File.Exists(missing.Name));
    }

    [Fact]
    public void A_file_whose_writer_was_killed_is_sound()
    {
        using var home = new FileHome();
        for (int kill = 0; kill < 2; kill++)
        {
            KilledWriter.RunAndKill(home.Name, 1 + (100 * kill), 150 * (kill + 1), afterStoring: true);
        }

        Assert.Equal("ok", home.Execute("PRAGMA integrity_check"));
    }

    private static string Refusal(FileHome home) => Assert.Throws<InputException>(() => home.Open(create: false)).Message;
}
