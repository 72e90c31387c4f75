using Spectre.Console;

namespace Clackbeat.Frame;

/// <summary>Lays words out within the width of the screen.</summary>
internal static class Layout
{
    private const int Indent = 2;

    /// <summary>Two columns without lines, such as names and figures.</summary>
    public static void Pairs(Session session, IEnumerable<(string Name, string Value)> rows)
    {
        Grid grid = new Grid()
            .AddColumn(new GridColumn { NoWrap = true, Padding = new Padding(Indent, 0, Indent, 0) })
            .AddColumn(new GridColumn { Padding = new Padding(0, 0, 0, 0) });
        foreach ((string? name, string? value) in rows)
        {
            grid.AddRow(new Text(name), new Text(value));
        }

        Write(session, grid);
    }

    /// <summary>Sentences, each behind a dash.</summary>
    public static void Bullets(Session session, IEnumerable<string> sentences)
    {
        Grid grid = new Grid()
            .AddColumn(new GridColumn { NoWrap = true, Padding = new Padding(Indent, 0, 1, 0) })
            .AddColumn(new GridColumn { Padding = new Padding(0, 0, 0, 0) });
        foreach (string sentence in sentences)
        {
            grid.AddRow(new Text("-"), new Text(sentence));
        }

        Write(session, grid);
    }

    /// <summary>A table with headers and a rule under them; figures stand to the right.</summary>
    public static void Table(Session session, IReadOnlyList<string> headers, IEnumerable<IReadOnlyList<string>> rows)
    {
        Table table = new Table().Border(TableBorder.Simple);
        foreach (string header in headers)
        {
            table.AddColumn(new TableColumn(new Text(header)));
        }

        foreach (IReadOnlyList<string> row in rows)
        {
            table.AddRow(row.Select(cell => new Text(cell)));
        }

        Write(session, table);
    }

    /// <summary>Running text.</summary>
    public static void Paragraph(Session session, string words) => Write(session, new Text($"{words}\n"));

    // The screen pads lines to its width; trailing blanks have no use in a file or a diff.
    private static void Write(Session session, Spectre.Console.Rendering.IRenderable what)
    {
        if (session.OutIsTerminal)
        {
            session.Screen.Write(what);
            return;
        }

        using var buffer = new StringWriter();
        Session.CreateConsole(buffer, isTerminal: false).Write(what);
        foreach (string line in buffer.ToString().TrimEnd().Split('\n'))
        {
            session.Out.WriteLine(line.TrimEnd());
        }
    }
}
