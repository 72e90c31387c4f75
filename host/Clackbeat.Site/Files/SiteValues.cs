namespace Clackbeat.Site.Files;

/// <summary>The values of a site file by table and key, with their lines; the way into and out of the schema.</summary>
internal sealed class SiteValues
{
    private readonly Dictionary<(string Table, string Key, int Block), (object Value, int Line)> values = [];
    private readonly List<SiteProblem> problems = [];

    private SiteValues()
    {
    }

    /// <summary>What can't stand, in the order of the file.</summary>
    public IReadOnlyList<SiteProblem> Problems => problems;

    /// <summary>Matches a document with the schema.</summary>
    public static SiteValues From(SiteDocument document)
    {
        var result = new SiteValues();
        result.CheckHeaders(document);
        foreach (var entry in document.Entries.TakeWhile(_ => result.problems.Count < SiteDocument.MostProblems))
        {
            result.Take(entry);
        }

        result.CheckRequired(document);
        return result;
    }

    /// <summary>A value of a single table, or of a block of a repeated one.</summary>
    public T? Get<T>(string table, string key, int block = -1) =>
        values.TryGetValue((table, key, block), out var found) ? (T)found.Value : default;

    /// <summary>A value type that may be left out.</summary>
    public T? Find<T>(string table, string key, int block = -1)
        where T : struct =>
        values.TryGetValue((table, key, block), out var found) ? (T)found.Value : null;

    /// <summary>Whether a key of a single table was written.</summary>
    public bool Has(string table, string key) => values.ContainsKey((table, key, -1));

    /// <summary>The line a key stands in; null when it was left out.</summary>
    public int? LineOf(string table, string key) => values.TryGetValue((table, key, -1), out var found) ? found.Line : null;

    /// <summary>The blocks of a repeated table, in order.</summary>
    public IEnumerable<int> BlocksOf(string table) =>
        values.Keys.Where(k => k.Table == table && k.Block >= 0).Select(k => k.Block).Distinct().Order();

    private void Take(SiteEntry entry)
    {
        var key = entry.Path.Count == 2 ? SiteSchema.TryKey(entry.Path[0], entry.Path[1]) : null;
        if (key is null)
        {
            AddUnlessHeaderTold(entry);
            return;
        }

        var repeated = SiteSchema.TryTable(key.Table)!.Repeated;
        if (repeated != entry.Block >= 0)
        {
            return;
        }

        var value = ValueReader.Read(key, entry.Value, out var problem);
        if (problem.Length > 0)
        {
            problems.Add(new SiteProblem(entry.Line, $"[{key.Table}] {key.Key}: {problem}"));
        }
        else if (value is not null && !values.TryAdd((key.Table, key.Key, entry.Block), (value, entry.Line)))
        {
            problems.Add(new SiteProblem(entry.Line, $"[{key.Table}] {key.Key} is written twice; keep one."));
        }
    }

    // A key in an unknown table says nothing new once the table itself was complained of.
    private void AddUnlessHeaderTold(SiteEntry entry)
    {
        if (SiteSchema.TryTable(entry.Path[0]) is not null || entry.Path.Count == 1)
        {
            problems.Add(new SiteProblem(entry.Line, Unknown.Key(entry.Path)));
            return;
        }

        var message = Unknown.Table(entry.Path[0]);
        if (!problems.Any(p => p.Message == message))
        {
            problems.Add(new SiteProblem(entry.Line, message));
        }
    }

    private void CheckHeaders(SiteDocument document)
    {
        foreach (var (header, line) in document.Headers.TakeWhile(_ => problems.Count < SiteDocument.MostProblems))
        {
            var known = SiteSchema.TryTable(header.Name);
            if (known is null && !header.Name.Contains('.', StringComparison.Ordinal))
            {
                problems.Add(new SiteProblem(line, Unknown.Table(header.Name)));
            }
            else if (known is not null && known.Repeated != header.Repeated)
            {
                problems.Add(new SiteProblem(line, $"write {known.Header} instead of {header.Header}."));
            }
        }
    }

    private void CheckRequired(SiteDocument document)
    {
        var written = document.Entries
            .Where(e => e.Path.Count == 2)
            .Select(e => (e.Path[0], e.Path[1], e.Block))
            .ToHashSet();
        foreach (var key in SiteSchema.Keys.Where(k => k.Required))
        {
            var table = SiteSchema.TryTable(key.Table)!;
            if (!table.Repeated)
            {
                RequireIn(document, written, key, table, -1);
            }
            else
            {
                foreach (var block in BlocksOf(table.Name).ToList())
                {
                    RequireIn(document, written, key, table, block);
                }
            }
        }
    }

    private void RequireIn(
        SiteDocument document, HashSet<(string Table, string Key, int Block)> written, SiteKey key, SiteTable table, int block)
    {
        // The size and class that a pipe is sold by give its bore where the tables know them.
        if (written.Contains((key.Table, key.Key, block)) || (key is { Table: "drive_pipe", Key: "bore" } && SiteBinder.PipeBySize(this) is not null))
        {
            return;
        }

        if (problems.Count >= SiteDocument.MostProblems)
        {
            return;
        }

        var headers = document.Headers.Where(h => h.Table.Name == table.Name).ToList();
        var line = headers.Count > Math.Max(block, 0) ? headers[Math.Max(block, 0)].Line : (int?)null;
        problems.Add(new SiteProblem(
            line, $"{table.Header} {key.Key} is missing; add a line such as {key.Key} = {key.Quoted(Quantities.Units.Metric)}."));
    }

    /// <summary>What to say of names that aren't in the schema.</summary>
    private static class Unknown
    {
        public static string Table(string name)
        {
            var near = Spelling.Nearest(name, SiteSchema.Tables.Select(t => t.Name));
            var known = string.Join(", ", SiteSchema.Tables.Select(t => t.Header));
            return near is null
                ? $"there is no table [{name}]; known are {known}."
                : $"there is no table [{name}]; did you mean {SiteSchema.TryTable(near)!.Header}?";
        }

        public static string Key(IReadOnlyList<string> path)
        {
            var table = path.Count > 1 ? path[0] : "";
            var name = string.Join('.', path.Skip(path.Count > 1 ? 1 : 0));
            var home = SiteSchema.Keys.FirstOrDefault(k => k.Key == name && k.Table != table);
            if (table.Length == 0)
            {
                return home is null
                    ? $"{name} stands outside any table; put it under its table's header."
                    : $"{name} stands outside any table; it belongs under [{home.Table}].";
            }

            if (Spelling.Nearest(name, SiteSchema.KeysOf(table).Select(k => k.Key)) is { } near)
            {
                return $"there is no key {name} in [{table}]; did you mean {near}?";
            }

            var known = string.Join(", ", SiteSchema.KeysOf(table).Select(k => k.Key));
            return home is null
                ? $"there is no key {name} in [{table}]; known are {known}."
                : $"there is no key {name} in [{table}]; it belongs under [{home.Table}].";
        }
    }
}
