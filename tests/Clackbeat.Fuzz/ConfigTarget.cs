using System.Text;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Fuzz;

/// <summary>What a person writes beside site files: the settings of the log and of the intake, and a wish as the plan's page and command take it.</summary>
internal static class ConfigTarget
{
    private static readonly string Folder = Prepared();

    /// <summary>The first byte says which of the two settings files it is.</summary>
    public static void RunSettings(byte[] input)
    {
        string text = Encoding.UTF8.GetString(input, Math.Min(1, input.Length), Math.Max(0, input.Length - 1));
        try
        {
            if (input.Length > 0 && (input[0] & 1) == 1)
            {
                IntakeFile.Parse(text, "any.toml", Folder);
            }
            else
            {
                LogFile.Parse(text, "any.toml", Folder);
            }
        }
        catch (InputException)
        {
            // A file that is refused in words.
        }
    }

    /// <summary>The first byte says in which units prices are; then a line a field: its name, a tab, what was written there.</summary>
    public static void RunWish(byte[] input)
    {
        ILookup<string, string> written = Encoding.UTF8.GetString(input, Math.Min(1, input.Length), Math.Max(0, input.Length - 1)).Split('\n')
            .Select(line => line.Split('\t', 2))
            .Where(parts => parts.Length == 2)
            .ToLookup(parts => parts[0], parts => parts[1], StringComparer.Ordinal);
        try
        {
            PlanWish wish = new WishReader(name => [.. written[name]], input.Length > 0 && (input[0] & 1) == 1 ? Units.Us : Units.Metric).Read();
            BrokenPromiseException.Unless(
                wish.Prices.Values.Concat(wish.MonthlyNeedM3PerS).Concat(wish.MonthlyFlowM3PerS)
                    .Append(wish.SupplyFlowM3PerS).Append(wish.SupplyHeadM).Append(wish.LiftM).All(double.IsFinite),
                "something that is wished for is no number");
        }
        catch (WishException)
        {
            // A wish that is refused in words.
        }
    }

    // Site files that the settings name must be there.
    private static string Prepared()
    {
        File.WriteAllText(Scratch.File("my-ram.toml"), SiteTemplate.Text(Units.Metric));
        return Scratch.Folder;
    }
}
