using System.Text;
using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Commands.Overview;

/// <summary>Reads a password: at a terminal twice and without showing it, elsewhere as one line of standard input.</summary>
internal static class PasswordPrompt
{
    /// <summary>Reads it.</summary>
    /// <param name="session">Where it is asked for.</param>
    /// <param name="name">Whose it is.</param>
    /// <exception cref="InputException">It was typed twice in two ways.</exception>
    public static string Read(Session session, string name)
    {
        if (Console.IsInputRedirected)
        {
            return Console.In.ReadLine() ?? "";
        }

        string first = Typed(session, Phrases.Say("account.ask", ("name", name)));
        return first == Typed(session, Phrases.Say("account.ask-again")) ? first : throw InputException.Of("account.differ");
    }

    private static string Typed(Session session, string words)
    {
        session.Error.Write(words);
        var password = new StringBuilder();
        while (Console.ReadKey(intercept: true) is { Key: not ConsoleKey.Enter } key)
        {
            if (key.Key == ConsoleKey.Backspace)
            {
                password.Length -= Math.Min(1, password.Length);
            }
            else if (!char.IsControl(key.KeyChar))
            {
                password.Append(key.KeyChar);
            }
        }

        session.Error.WriteLine();
        return password.ToString();
    }
}
