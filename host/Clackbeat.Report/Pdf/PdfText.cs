using System.Text;

namespace Clackbeat.Report.Pdf;

/// <summary>Makes words fit for paper: nothing without a shape, nothing the typeface lacks where a stand-in reads the same.</summary>
internal static class PdfText
{
    /// <summary>The words as they are printed.</summary>
    public static string Printable(string words)
    {
        var text = new StringBuilder(words.Length);
        foreach (char c in words)
        {
            text.Append(c switch
            {
                '\u2212' => "\u2013",
                '≈' => "~",
                '≤' => "<=",
                '≥' => ">=",
                '→' => "to",
                _ when char.IsControl(c) => " ",
                _ => c.ToString(),
            });
        }

        return text.ToString();
    }
}
