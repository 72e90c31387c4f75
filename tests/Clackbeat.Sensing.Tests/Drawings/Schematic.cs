using System.Globalization;

namespace Clackbeat.Sensing.Tests.Drawings;

/// <summary>
/// Draws a variant: what is outside on the left, the board on the right, a line for each way between them. Pins that are
/// wired straight through come as short lines, ground pins as ground signs.
/// </summary>
internal sealed class Schematic(Netlist netlist)
{
    private const int Width = 1240;
    private const int LeftX = 30;
    private const int LeftEnd = 190;
    private const int BoardX = 1040;
    private const int TallRow = 150;
    private const int ShortRow = 30;
    private const int Between = 112;
    private const int HangRoom = 100;

    private readonly Pen _pen = new();
    private readonly HashSet<string> _hung = [];
    private readonly HashSet<string> _leftPins = [];
    private double _y = 70;
    private double _blockTop;
    private string _blockRef = "";

    public string Draw()
    {
        foreach (Row row in netlist.Rows.GroupBy(r => BlockOf(r.Left)).SelectMany(g => g))
        {
            OpenBlock(BlockOf(row.Left));
            TallLine(row);
        }

        OpenBlock("");
        foreach (Block rest in netlist.Blocks.Where(b => b.Ref != "U1" && !_leftPins.Any(p => p.StartsWith(b.Ref + ".", StringComparison.Ordinal))))
        {
            _blockTop = _y;
            _y += 44;
            StraightPins(rest);
            CloseBlock(rest);
        }

        double bottom = _y + 20 + (30 * (netlist.Block("U1").Pins.Count(p => p.Net == "GND") - 1));
        return Sheet(bottom);
    }

    private void TallLine(Row row)
    {
        _y += 70;
        LeftEndOf(row);
        double x = LeftEnd;
        for (int i = 0; i < row.Nets.Count; i++)
        {
            string net = row.Nets[i];
            if (i > 0)
            {
                x = InLine(x, row.Nets[i - 1], net);
            }

            foreach (Part part in netlist.Parts.Where(p => HangsOn(p, net) && _hung.Add(p.Ref)))
            {
                _pen.Line(x, _y, x + HangRoom, _y);
                x += HangRoom;
                _pen.Hanging(x - 40, _y, part, part.Hangs ? "GND" : "3.3 V");
                _pen.Words(x - 20, _y + 32, part.Ref, size: 13, bold: true);
                Wrapped(x - 20, _y + 47, part.Value);
            }
        }

        RightEndOf(row, x);
        _y += TallRow - 70;
    }

    private static bool HangsOn(Part part, string net) => (part.Hangs || part.Kind == "pull-up") && part.From == net;

    private double InLine(double x, string from, string to)
    {
        Part part = netlist.Parts.Single(p => !p.Hangs && p.Kind != "pull-up"
            && ((p.From == from && p.To == to) || (p.From == to && p.To == from)));
        double middle = x + (Between / 2);
        _pen.Line(x, _y, middle - 34, _y);
        _pen.Lying(middle, _y, part);
        _pen.Line(middle + 34, _y, x + Between, _y);
        if (part.Kind == "converter")
        {
            // Above its box: below would stand beside the words of a part that hangs from the line.
            _pen.Words(middle, _y - 24, part.Value, "middle", 12);
        }
        else if (part.Kind == "switch")
        {
            _pen.Words(middle, _y + 32, part.Value, "middle", 12);
        }
        else
        {
            _pen.Words(middle, _y - 30, part.Ref, "middle", 13, bold: true);
            _pen.Words(middle, _y - 15, part.Value, "middle", 12);
        }

        if (part.Control is { } control)
        {
            _pen.Words(middle, _y + 46, "on by " + PinOn("U1", control), "middle", 12);
        }

        return x + Between;
    }

    private void LeftEndOf(Row row)
    {
        if (row.Left.Contains('.', StringComparison.Ordinal) && BlockOf(row.Left).Length > 0)
        {
            string pin = row.Left[(row.Left.IndexOf('.', StringComparison.Ordinal) + 1)..];
            _leftPins.Add(row.Left);
            _pen.Words(LeftEnd - 10, _y + 5, pin, "end", bold: true);
            return;
        }

        // The line goes on from another one, or to the control of a switch.
        bool isPart = netlist.Parts.Any(p => p.Ref == row.Left);
        _pen.Words(LeftEnd - 10, _y + 5, isPart ? row.Left + ", control" : "from " + Plainly(row.Left), "end", 13);
    }

    private void RightEndOf(Row row, double x)
    {
        if (row.Right.StartsWith("U1.", StringComparison.Ordinal))
        {
            _pen.Line(x, _y, BoardX, _y);
            string pin = row.Right[3..];
            _pen.Words(BoardX + 12, _y + 5, pin, bold: true);
            return;
        }

        _pen.Line(x, _y, x + 24, _y);
        _pen.Words(x + 30, _y + 5, "joined to the line " + Plainly(row.Right), size: 13);
    }

    // Closes the box of the last block with the pins that have no line of their own, and opens the next.
    private void OpenBlock(string reference)
    {
        if (reference == _blockRef && reference.Length > 0)
        {
            return;
        }

        if (_blockRef.Length > 0)
        {
            StraightPins(netlist.Block(_blockRef));
            CloseBlock(netlist.Block(_blockRef));
        }

        _blockRef = reference;
        _blockTop = _y;
    }

    private void CloseBlock(Block block)
    {
        _y += 12;
        _pen.Words(LeftX + 12, _blockTop + 24, $"{block.Ref} {block.Name}", size: 15, bold: true);
        _pen.Words(LeftX + 12, _blockTop + 42, block.About, size: 12);
        _frames.Add((LeftX, _blockTop, LeftEnd - LeftX, _y - _blockTop));
        _y += 14;
    }

    private readonly List<(double X, double Y, double Width, double Height)> _frames = [];

    private void StraightPins(Block block)
    {
        foreach ((string pin, string net) in block.Pins.Where(p => !_leftPins.Contains($"{block.Ref}.{p.Pin}")))
        {
            _y += ShortRow;
            _leftPins.Add($"{block.Ref}.{pin}");
            _pen.Words(LeftEnd - 10, _y + 5, pin, "end", bold: true);
            if (net is "GND" or "SHIELD")
            {
                _pen.Line(LeftEnd, _y, LeftEnd + 30, _y);
                _pen.Ground(LeftEnd + 30, _y - 4);
                if (net == "SHIELD")
                {
                    _pen.Words(LeftEnd + 52, _y + 8, "the box's earth, at this end only", size: 13);
                }

                _y += 8;
                continue;
            }

            _pen.Line(LeftEnd, _y, BoardX, _y);
            _pen.Words(BoardX + 12, _y + 5, PinOn("U1", net), bold: true);
        }
    }

    private string PinOn(string block, string net) => netlist.Block(block).Pins.Single(p => p.Net == net).Pin;

    private string BlockOf(string left)
    {
        int dot = left.IndexOf('.', StringComparison.Ordinal);
        return dot > 0 && netlist.Blocks.Any(b => b.Ref == left[..dot]) ? left[..dot] : "";
    }

    private static string Plainly(string net) => net switch
    {
        "V5" => "5 V",
        "V12" => "behind D5",
        "FUSED" => "behind F2",
        "SENSOR_5V" => "behind F1",
        _ => net,
    };

    private void Wrapped(double x, double y, string words)
    {
        int at = words.Length > 9 ? words.LastIndexOf(' ', 10) : -1;
        _pen.Words(x, y, at > 0 ? words[..at] : words, size: 12);
        if (at > 0)
        {
            _pen.Words(x, y + 14, words[(at + 1)..], size: 12);
        }
    }

    private string Sheet(double bottom)
    {
        Pen back = new();
        foreach ((double left, double top, double width, double tall) in _frames)
        {
            back.Box(left, top, width, tall, "#eef3f5");
        }

        back.Box(BoardX, 70, 170, bottom - 70, "#eef3f5");
        back.Words(BoardX + 12, 94, "U1 ESP32 board", size: 15, bold: true);
        Block board = netlist.Block("U1");
        double y = bottom - 14;
        foreach ((string pin, string net) in board.Pins.Where(p => p.Net == "GND").Reverse())
        {
            back.Words(BoardX + 12, y, pin + (pin == "GND" ? "" : " to GND"), bold: true);
            back.Line(BoardX - 26, y - 5, BoardX, y - 5);
            back.Ground(BoardX - 26, y - 9);
            y -= 40;
        }

        Pen words = new();
        words.Words(30, 36, netlist.Title, size: 20, bold: true);
        words.Words(30, 58, netlist.Note, size: 14);
        string height = (bottom + 20).ToString("0", CultureInfo.InvariantCulture);
        return $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {height}\" role=\"img\" aria-labelledby=\"t d\" font-family=\"sans-serif\" font-size=\"15\" fill=\"none\" stroke=\"#1b2a33\" stroke-width=\"2\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n"
            + $"<title id=\"t\">Wiring: {netlist.Title}</title>\n<desc id=\"d\">{Description()}</desc>\n"
            + $"<rect width=\"{Width}\" height=\"{height}\" fill=\"#ffffff\" stroke=\"none\"/>\n"
            + back + words + _pen + "</svg>\n";
    }

    // For those who hear the page: every part with what it joins.
    private string Description() => string.Join("; ", netlist.Parts.Select(p =>
        $"{p.Ref} {p.Kind} {p.Value} {(p.Hangs ? $"from {p.From} to ground" : $"between {p.From} and {p.To}")}"))
        + ". " + string.Join("; ", netlist.Blocks.SelectMany(b => b.Pins.Select(p => $"{b.Ref} {p.Pin} on {p.Net}"))) + ".";
}
