using Clackbeat.Site.Facts;

namespace Clackbeat.Site.Files;

/// <summary>The values of a site file by table and key, with their lines; the way into and out of the schema.</summary>
internal sealed class SiteValues
{
    private readonly Dictionary<(string Table, string Key, int Block), (object Value, int Line)> _values = [];
    private readonly List<SiteProblem> _problems = [];

    private SiteValues()
    {
    }

    /// <summary>What can't stand, in the order of the file.</summary>
    public IReadOnlyList<SiteProblem> Problems => _problems;

    /// <summary>Matches a document with the schema.</summary>
    public static SiteValues From(SiteDocument document)
    {
        var result = new SiteValues();
        result.CheckHeaders(document);
        foreach (SiteEntry? entry in document.Entries.TakeWhile(_ => result._problems.Count < SiteDocument.MostProblems))
        {
            result.Take(entry);
        }

        result.CheckPipes();
        result.CheckRequired(document);
        return result;
    }

    /// <summary>A value of a single table, or of a block of a repeated one.</summary>
    public T? Get<T>(string table, string key, int block = -1) =>
        _values.TryGetValue((table, key, block), out (object Value, int Line) found) ? (T)found.Value : default;

    /// <summary>A value type that may be left out.</summary>
    public T? Find<T>(string table, string key, int block = -1)
        where T : struct =>
        _values.TryGetValue((table, key, block), out (object Value, int Line) found) ? (T)found.Value : null;

    /// <summary>Whether a key of a single table, or of a block of a repeated one, was written.</summary>
    public bool Has(string table, string key, int block = -1) => _values.ContainsKey((table, key, block));

    /// <summary>The line a key stands in; null when it was left out.</summary>
    public int? LineOf(string table, string key, int block = -1) =>
        _values.TryGetValue((table, key, block), out (object Value, int Line) found) ? found.Line : null;

    /// <summary>The blocks of a repeated table, in order.</summary>
    public IEnumerable<int> BlocksOf(string table) =>
        _values.Keys.Where(k => k.Table == table && k.Block >= 0).Select(k => k.Block).Distinct().Order();

    private void Take(SiteEntry entry)
    {
        SiteKey? key = SiteSchema.TryKey(TableOf(entry.Path), entry.Path[^1]);
        if (key is null)
        {
            AddUnlessHeaderTold(entry);
            return;
        }

        SiteTable table = SiteSchema.TryTable(key.Table)!;
        if (table.Repeated != entry.Block >= 0)
        {
            AddOnce(entry.Line, Fact.Of("site.table-as-value", ("header", table.Header)));
            return;
        }

        object? value = ValueReader.Read(key, entry.Value, out Fact? problem);
        if (problem is not null)
        {
            _problems.Add(new SiteProblem(entry.Line, Fact.Of("site.at-key", ("key", $"{table.Header} {key.Key}"), ("what", problem))));
        }
        else if (value is not null && !_values.TryAdd((key.Table, key.Key, entry.Block), (value, entry.Line)))
        {
            _problems.Add(new SiteProblem(entry.Line, Fact.Of("site.written-twice", ("header", table.Header), ("key", key.Key))));
        }
    }

    private static string TableOf(IReadOnlyList<string> path) => string.Join('.', path.Take(path.Count - 1));

    // A key in an unknown table says nothing new once the table itself was complained of.
    private void AddUnlessHeaderTold(SiteEntry entry)
    {
        if (entry.Path.Count == 1 || SiteSchema.TryTable(TableOf(entry.Path)) is not null)
        {
            _problems.Add(new SiteProblem(entry.Line, Unknown.Key(entry.Path)));
            return;
        }

        // [drive_pipe.sektion] is meant as a table; bore.inner in [drive_pipe] as a key.
        if (SiteSchema.TryTable(entry.Path[0]) is not null && !Unknown.NearsTableWithin(entry.Path))
        {
            _problems.Add(new SiteProblem(entry.Line, Unknown.Key(entry.Path)));
            return;
        }

        Fact message = Unknown.Table(SiteSchema.TryTable(entry.Path[0]) is null ? entry.Path[0] : TableOf(entry.Path));
        AddOnce(entry.Line, message);
    }

    private void AddOnce(int line, Fact what)
    {
        if (!_problems.Any(p => p.What.Equals(what)))
        {
            _problems.Add(new SiteProblem(line, what));
        }
    }

    // The sections take the place of the single pipe's keys; both together would leave open which is true.
    private void CheckPipes()
    {
        if (!BlocksOf(PipeBinder.Sections).Any())
        {
            return;
        }

        foreach (SiteKey? key in SiteSchema.KeysOf(PipeBinder.Sections).Where(k => Has(PipeBinder.Single, k.Key)))
        {
            _problems.Add(new SiteProblem(
                LineOf(PipeBinder.Single, key.Key),
                Fact.Of("site.beside-sections", ("key", key.Key))));
        }
    }

    private void CheckHeaders(SiteDocument document)
    {
        foreach ((SiteTable? header, int line) in document.Headers.TakeWhile(_ => _problems.Count < SiteDocument.MostProblems))
        {
            SiteTable? known = SiteSchema.TryTable(header.Name);
            if (known is null && !header.Name.Contains('.', StringComparison.Ordinal))
            {
                _problems.Add(new SiteProblem(line, Unknown.Table(header.Name)));
            }
            else if (known is not null && known.Repeated != header.Repeated)
            {
                _problems.Add(new SiteProblem(line, Fact.Of("site.write-instead", ("right", known.Header), ("wrong", header.Header))));
            }
        }
    }

    private void CheckRequired(SiteDocument document)
    {
        var written = document.Entries
            .Where(e => e.Path.Count > 1)
            .Select(e => (TableOf(e.Path), e.Path[^1], e.Block))
            .ToHashSet();
        bool inSections = written.Any(w => w.Item1 == PipeBinder.Sections && w.Block >= 0);
        foreach (SiteKey? key in SiteSchema.Keys.Where(k => k.Required && !(inSections && k.Table == PipeBinder.Single)))
        {
            SiteTable table = SiteSchema.TryTable(key.Table)!;
            if (!table.Repeated)
            {
                RequireIn(document, written, key, table, -1);
            }
            else
            {
                // A block without a key shows by its header only.
                IEnumerable<int> blocks = written.Where(w => w.Item1 == table.Name && w.Block >= 0).Select(w => w.Block)
                    .Union(Enumerable.Range(0, document.Headers.Count(h => h.Table.Name == table.Name && h.Table.Repeated)));
                foreach (int block in blocks.Order().ToList())
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
        if (written.Contains((key.Table, key.Key, block))
            || (key is { Table: PipeBinder.Single or PipeBinder.Sections, Key: "bore" } && PipeBinder.Sold(this, new PipePlace(key.Table, block)) is not null))
        {
            return;
        }

        if (_problems.Count >= SiteDocument.MostProblems)
        {
            return;
        }

        var headers = document.Headers.Where(h => h.Table.Name == table.Name).ToList();
        int? line = headers.Count > Math.Max(block, 0) ? headers[Math.Max(block, 0)].Line : (int?)null;
        _problems.Add(new SiteProblem(
            line, Fact.Of("site.missing", ("header", table.Header), ("key", key.Key), ("example", $"{key.Key} = {key.Quoted(Quantities.Units.Metric)}"))));
    }

    /// <summary>What to say of names that aren't in the schema.</summary>
    private static class Unknown
    {
        public static Fact Table(string name)
        {
            string? near = Spelling.Nearest(name, SiteSchema.Tables.Select(t => t.Name));
            string known = string.Join(", ", SiteSchema.Tables.Select(t => t.Header));
            return near is null
                ? Fact.Of("site.no-table", ("table", name), ("known", known))
                : Fact.Of("site.no-table-near", ("table", name), ("near", SiteSchema.TryTable(near)!.Header));
        }

        /// <summary>Whether a longer path seems to name a table within a table.</summary>
        public static bool NearsTableWithin(IReadOnlyList<string> path) => path.Count > 2
            && Spelling.Nearest(path[1], SiteSchema.TablesWithin(path[0])) is not null;

        public static Fact Key(IReadOnlyList<string> path)
        {
            SiteTable? known = SiteSchema.TryTable(TableOf(path));
            string? table = known?.Name ?? (path.Count > 1 ? path[0] : "");
            string? header = known?.Header ?? $"[{table}]";
            string? name = known is null ? string.Join('.', path.Skip(path.Count > 1 ? 1 : 0)) : path[^1];
            SiteKey? home = SiteSchema.Keys.FirstOrDefault(k => k.Key == name && k.Table != table);
            if (table.Length == 0)
            {
                return home is null
                    ? Fact.Of("site.outside", ("key", name))
                    : Fact.Of("site.outside-belongs", ("key", name), ("table", home.Table));
            }

            if (Spelling.Nearest(name, SiteSchema.KeysOf(table).Select(k => k.Key)) is { } near)
            {
                return Fact.Of("site.no-key-near", ("key", name), ("header", header), ("near", near));
            }

            string keys = string.Join(", ", SiteSchema.KeysOf(table).Select(k => k.Key));
            return home is null
                ? Fact.Of("site.no-key", ("key", name), ("header", header), ("known", keys))
                : Fact.Of("site.no-key-belongs", ("key", name), ("header", header), ("table", home.Table));
        }
    }
}
