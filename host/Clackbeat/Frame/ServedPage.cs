using System.Globalization;
using Clackbeat.Words;

namespace Clackbeat.Frame;

/// <summary>A page that a command serves on this computer until the program is asked to end.</summary>
internal static class ServedPage
{
    /// <summary>Tells the page's address, alone on a line so that a script can read it, and waits.</summary>
    /// <param name="session">Where the address goes, and what ends the wait.</param>
    /// <param name="server">The page's server, started; it is ended with the command.</param>
    /// <param name="port">The port on which it listens.</param>
    /// <param name="scheme">http or https.</param>
    /// <param name="told">The phrase that says who can open it.</param>
    /// <returns>The exit code.</returns>
    public static int Run(Session session, IAsyncDisposable server, int port, string scheme = "http", string told = "plan-page.open-it")
    {
        try
        {
            session.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{scheme}://127.0.0.1:{port}/"));
            session.Out.Flush();
            session.Say(Catalogue.Current.Say(told));
            session.Stop.WaitHandle.WaitOne();
        }
        finally
        {
            server.DisposeAsync().AsTask().GetAwaiter().GetResult();
        }

        return ExitCode.Done;
    }
}
