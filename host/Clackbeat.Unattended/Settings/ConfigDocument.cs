using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Tomlyn.Syntax;

namespace Clackbeat.Unattended.Settings;

/// <summary>
/// The keys of a log's file, read one by one. What is wrong is gathered with its line; a key that nobody asked for is
/// unknown, and the nearest that was asked for is named.
/// </summary>
internal sealed class ConfigDocument
{
    private readonly string _file;
    private readonly SiteDocument _document;
    private readonly List<SiteProblem> _problems;
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);

    private ConfigDocument(string file, SiteDocument document)
    {
        (_file, _document) = (file, document);
        _problems = [.. document.Problems];
    }

    /// <summary>Takes a text apart.</summary>
    public static ConfigDocument Of(string text, string file) => new(file, SiteDocument.Parse(text.TrimStart('\uFEFF')));

    /// <summary>How often a repeated table stands in the file.</summary>
    public int Blocks(string table) => _document.Headers.Count(h => h.Table.Name == table);

    /// <summary>Whether a table has any key.</summary>
    public bool Has(string table) => _document.Entries.Any(e => string.Join('.', e.Path.SkipLast(1)) == table);

    /// <summary>A text; null when the key is left out.</summary>
    public string? Text(string table, string key, int block = -1)
    {
        if (Find(table, key, block) is not { } entry)
        {
            return null;
        }

        if (entry.Value is StringValueSyntax { Value: { } text } && text.Trim().Length > 0)
        {
            return text.Trim();
        }

        Refuse(entry, Fact.Of("config.text", ("key", key)));
        return null;
    }

    /// <summary>One of some words.</summary>
    public T Choice<T>(string table, string key, T otherwise, params (string Word, T Value)[] choices)
    {
        if (Text(table, key) is not { } text)
        {
            return otherwise;
        }

        foreach ((string word, T value) in choices)
        {
            if (word.Equals(text, StringComparison.OrdinalIgnoreCase))
            {
                return value;
            }
        }

        Refuse(Find(table, key)!, Fact.Of("value.choice", ("text", text), ("choices", string.Join(", ", choices.Select(c => $"\"{c.Word}\"")))));
        return otherwise;
    }

    /// <summary>A quantity within limits, in SI.</summary>
    public double Quantity(string table, string key, QuantityKind kind, double otherwise, double low, double high)
    {
        if (Text(table, key) is not { } text)
        {
            return otherwise;
        }

        if (!QuantityText.TryParse(kind, text, out double value, out Fact? problem))
        {
            Refuse(Find(table, key)!, problem);
            return otherwise;
        }

        if (value >= low && value <= high)
        {
            return value;
        }

        Refuse(Find(table, key)!, Fact.Of("config.range", ("text", text), ("low", new Quantity(kind, low, Units.Metric)), ("high", new Quantity(kind, high, Units.Metric))));
        return otherwise;
    }

    /// <summary>A size on a disk [bytes].</summary>
    public long Bytes(string table, string key, long otherwise)
    {
        if (Text(table, key) is not { } text)
        {
            return otherwise;
        }

        if (ByteSize.TryParse(text, out long bytes))
        {
            return bytes;
        }

        Refuse(Find(table, key)!, Fact.Of("config.size", ("text", text)));
        return otherwise;
    }

    /// <summary>A whole number within limits.</summary>
    public int Integer(string table, string key, int otherwise, int low, int high, int block = -1)
    {
        if (Find(table, key, block) is not { } entry)
        {
            return otherwise;
        }

        if (entry.Value is IntegerValueSyntax number && number.Value >= low && number.Value <= high)
        {
            return (int)number.Value;
        }

        Refuse(entry, Fact.Of("config.integer", ("low", low), ("high", high)));
        return otherwise;
    }

    /// <summary>Yes or no.</summary>
    public bool Flag(string table, string key, bool otherwise)
    {
        if (Find(table, key) is not { } entry)
        {
            return otherwise;
        }

        if (entry.Value is BooleanValueSyntax flag)
        {
            return flag.Value;
        }

        Refuse(entry, Fact.Of("value.flag", ("key", key)));
        return otherwise;
    }

    /// <summary>Texts; one alone may stand without brackets.</summary>
    public IReadOnlyList<string> Texts(string table, string key, int block = -1)
    {
        if (Find(table, key, block) is not { } entry)
        {
            return [];
        }

        if (entry.Value is StringValueSyntax { Value: { } one })
        {
            return [one];
        }

        if (entry.Value is ArraySyntax array && array.Items.All(i => i.Value is StringValueSyntax))
        {
            return [.. array.Items.Select(i => ((StringValueSyntax)i.Value!).Value ?? "")];
        }

        Refuse(entry, Fact.Of("config.list", ("key", key)));
        return [];
    }

    /// <summary>Notes something that can't stand at a key, or in the whole file where the key isn't written.</summary>
    public void Refuse(string table, string key, Fact problem, int block = -1)
    {
        if (Find(table, key, block) is { } entry)
        {
            Refuse(entry, problem);
        }
        else
        {
            _problems.Add(new SiteProblem(null, Fact.Of("site.at-key", ("key", $"[{table}] {key}"), ("what", problem))));
        }
    }

    /// <summary>Throws when anything was wrong.</summary>
    /// <exception cref="InputException">All mistakes, with their lines.</exception>
    public void Close()
    {
        foreach (SiteEntry entry in _document.Entries)
        {
            string name = string.Join('.', entry.Path);
            if (!_asked.Contains(name))
            {
                _problems.Add(new SiteProblem(entry.Line, Spelling.Nearest(name, _asked) is { } near
                    ? Fact.Of("config.no-key-near", ("key", name), ("near", near))
                    : Fact.Of("config.no-key", ("key", name))));
            }
        }

        if (_problems.Count > 0)
        {
            throw new InputException(SiteProblem.Summary(_file, [.. _problems.OrderBy(p => p.Line ?? int.MaxValue)]));
        }
    }

    private void Refuse(SiteEntry entry, Fact problem) =>
        _problems.Add(new SiteProblem(entry.Line, Fact.Of("site.at-key", ("key", string.Join('.', entry.Path)), ("what", problem))));

    private SiteEntry? Find(string table, string key, int block = -1)
    {
        string name = $"{table}.{key}";
        _asked.Add(name);
        return _document.Entries.Find(e => e.Block == block && string.Join('.', e.Path) == name);
    }
}
