using System.Globalization;
using Clackbeat.Testing;
using Clackbeat.Watch.Accounts;

namespace Clackbeat.Watch.Tests;

/// <summary>This test assembly run as a program: it adds account after account and says each one's number once it is in the file, until it is killed.</summary>
public static class KilledAccounts
{
    private const int Most = 50;

    public static int Main(string[] args)
    {
        if (args is not [string path, string first])
        {
            return 2;
        }

        var file = new AccountFile(path);
        Console.Out.WriteLine("open");
        for (int number = int.Parse(first, CultureInfo.InvariantCulture); ; number++)
        {
            file.Set(new Account(Name(number), AccountRole.Keeper, "hash"));
            if (number > Most)
            {
                file.Remove(Name(number - Most));
            }

            KilledProgram.Say(number);
        }
    }

    [Fact]
    public static void Killing_who_writes_accounts_leaves_a_whole_file_with_every_account_that_was_told()
    {
        using var folder = new TemporaryFolder();
        string path = folder["accounts.json"];
        var random = new Random(11);
        int last = 0;
        for (int kill = 0; kill < KilledProgram.Kills; kill++)
        {
            int told = KilledProgram.RunAndKill(
                typeof(KilledAccounts).Assembly, [path, (last + 1).ToString(CultureInfo.InvariantCulture)], random.Next(0, 300), kill % 2 == 1);
            last = Math.Max(last, told);
            if (last == 0)
            {
                continue;
            }

            string[] names = [.. new AccountFile(path).All().Select(a => a.Name)];
            Assert.Equal(names.Length, names.Distinct().Count());
            Assert.All(Enumerable.Range(Math.Max(1, last - Most + 2), Math.Min(last, Most - 1)), n => Assert.Contains(Name(n), names));

            // One account more may have been written before it could be told.
            last += names.Contains(Name(last + 1)) ? 1 : 0;
        }

        Assert.True(last > 0, "It was killed before it could write anything.");
    }

    private static string Name(int number) => string.Create(CultureInfo.InvariantCulture, $"keeper {number:000000}");
}
