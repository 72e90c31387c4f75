using System.Globalization;
using Clackbeat.Site;
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

        Refuse(entry, $"this is text in quotes; write {key} = \"…\", or leave the key out.");
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

        Refuse(Find(table, key)!, $"\"{text}\" is none of the choices; write one of {string.Join(", ", choices.Select(c => $"\"{c.Word}\""))}.");
        return otherwise;
    }

    /// <summary>A quantity within limits, in SI.</summary>
    public double Quantity(string table, string key, QuantityKind kind, double otherwise, double low, double high)
    {
        if (Text(table, key) is not { } text)
        {
            return otherwise;
        }

        if (!QuantityText.TryParse(kind, text, out double value, out string problem))
        {
            Refuse(Find(table, key)!, problem);
            return otherwise;
        }

        if (value >= low && value <= high)
        {
            return value;
        }

        Refuse(Find(table, key)!, $"{text} is out of range; give {QuantityFormat.Format(kind, low, Units.Metric)} to {QuantityFormat.Format(kind, high, Units.Metric)}.");
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

        Refuse(Find(table, key)!, $"\"{text}\" is no size; write something like \"8 GB\" or \"500 MB\".");
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

        Refuse(entry, string.Create(CultureInfo.InvariantCulture, $"this is a whole number from {low} to {high}, without quotes."));
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

        Refuse(entry, $"write {key} = true or {key} = false, without quotes.");
        return otherwise;
    }

    /// <summary>Texts; one alone may stand without brackets.</summary>
    public IReadOnlyList<string> Texts(string table, string key)
    {
        if (Find(table, key) is not { } entry)
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

        Refuse(entry, $"this is a list of texts; write {key} = [\"…\", \"…\"].");
        return [];
    }

    /// <summary>Notes something that can't stand at a key, or in the whole file where the key isn't written.</summary>
    public void Refuse(string table, string key, string problem, int block = -1)
    {
        if (Find(table, key, block) is { } entry)
        {
            Refuse(entry, problem);
        }
        else
        {
            _problems.Add(new SiteProblem(null, $"[{table}] {key}: {problem}"));
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
                string hint = Spelling.Nearest(name, _asked) is { } nearest ? $" Did you mean {nearest}?" : "";
                _problems.Add(new SiteProblem(entry.Line, $"there is no key {name}.{hint}"));
            }
        }

        if (_problems.Count > 0)
        {
            throw new InputException(SiteProblem.Summary(_file, [.. _problems.OrderBy(p => p.Line ?? int.MaxValue)]));
        }
    }

    private void Refuse(SiteEntry entry, string problem) =>
        _problems.Add(new SiteProblem(entry.Line, $"{string.Join('.', entry.Path)}: {problem}"));

    private SiteEntry? Find(string table, string key, int block = -1)
    {
        string name = $"{table}.{key}";
        _asked.Add(name);
        return _document.Entries.Find(e => e.Block == block && string.Join('.', e.Path) == name);
    }
}
