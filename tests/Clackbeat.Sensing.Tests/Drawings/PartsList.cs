using System.Globalization;

namespace Clackbeat.Sensing.Tests.Drawings;

/// <summary>A variant's list of parts, between its two marks on a page.</summary>
internal static class PartsList
{
    public static string Put(string page, Netlist netlist)
    {
        string begin = $"<!-- parts of {netlist.Variant}: made from netlist.toml -->\n";
        string end = $"<!-- end of parts of {netlist.Variant} -->";
        int from = page.IndexOf(begin, StringComparison.Ordinal) + begin.Length;
        int to = page.IndexOf(end, StringComparison.Ordinal);
        Assert.True(from >= begin.Length && to >= from, $"the marks for {netlist.Variant} are missing");
        return page[..from] + string.Join('\n', Lines(netlist)) + "\n" + page[to..];
    }

    private static IEnumerable<string> Lines(Netlist netlist)
    {
        yield return "| quantity | in the drawing | what |";
        yield return "| --- | --- | --- |";
        foreach (Block block in netlist.Blocks)
        {
            yield return $"| 1 | {block.Ref} | {block.Buy} |";
        }

        foreach (IGrouping<string, Part> same in netlist.Parts.GroupBy(p => p.Buy).OrderBy(g => g.First().Ref, StringComparer.Ordinal))
        {
            string count = same.Count().ToString(CultureInfo.InvariantCulture);
            yield return $"| {count} | {string.Join(", ", same.Select(p => p.Ref).Order(StringComparer.Ordinal))} | {same.Key} |";
        }

        foreach ((string quantity, string what) in netlist.Extras)
        {
            yield return $"| {quantity} | | {what} |";
        }
    }
}
