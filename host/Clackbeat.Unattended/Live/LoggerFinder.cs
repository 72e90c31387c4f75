using System.IO.Enumeration;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Live;

/// <summary>Where a ram's logger was found, or why it wasn't.</summary>
/// <param name="Port">The port; null when it wasn't found.</param>
/// <param name="Logger">Id of the logger on it.</param>
/// <param name="Words">Why it wasn't found, or what is new about it; empty for neither.</param>
internal readonly record struct Found(string? Port, string Logger, string Words);

/// <summary>
/// Finds a ram's logger by its identity: on its port, where it was last, and on all other ports. Another logger on the ram's
/// own port is taken for its successor when the known one is nowhere, nobody named one by its id, and it is no other ram's.
/// </summary>
internal sealed class LoggerFinder(RamSettings ram, IReadOnlyList<string> lookIn, KnownLoggers known, LogWorld world)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan ShortPatience = TimeSpan.FromSeconds(1.5);

    private string? _lastPort;

    /// <summary>Looks for it.</summary>
    /// <param name="thorough">Ask on all other ports too; costs a second or so for each.</param>
    /// <param name="stop">Ends the search.</param>
    public Found Find(bool thorough, CancellationToken stop)
    {
        string? wanted = ram.Logger ?? known.Of(ram.Site.Name);
        string? stranger = null;
        string problem = "";
        foreach (string port in new[] { _lastPort, ram.Port }.OfType<string>().Distinct())
        {
            (string? logger, string words) = Ask(port, Patience, stop);
            if (logger is not null && (wanted is null ? !known.IsOfAnother(ram.Site.Name, logger) : logger == wanted))
            {
                return Take(port, logger, "");
            }

            stranger = port == ram.Port ? logger ?? stranger : stranger;
            problem = problem.Length > 0 ? problem : logger is null ? words : Phrases.Say("unattended.other-logger", ("logger", logger), ("port", port));
        }

        if (wanted is not null && thorough)
        {
            foreach (string port in Others())
            {
                if (Ask(port, ShortPatience, stop).Logger == wanted)
                {
                    return Take(port, wanted, Phrases.Say("unattended.logger-moved", ("logger", wanted), ("port", port)));
                }
            }

            if (stranger is not null && ram.Logger is null && !known.IsOfAnother(ram.Site.Name, stranger))
            {
                return Take(ram.Port!, stranger, Phrases.Say("unattended.logger-new", ("wanted", wanted), ("stranger", stranger), ("port", ram.Port!)));
            }
        }

        return new Found(null, "", problem.Length > 0 ? problem : Phrases.Say("unattended.logger-nowhere", ("logger", wanted ?? "")));
    }

    private Found Take(string port, string logger, string words)
    {
        _lastPort = port;
        known.Learn(ram.Site.Name, logger);
        return new Found(port, logger, words);
    }

    private (string? Logger, string Words) Ask(string port, TimeSpan patience, CancellationToken stop)
    {
        try
        {
            using var talk = LoggerTalk.Open(world.Line(port, ram.Baud), world.Time);
            Hello? hello = talk.Identify(patience, stop);
            return hello is null ? (null, talk.Nobody().Message) : (SessionHeader.DeviceOf(hello), "");
        }
        catch (Exception fault) when (fault is LineException or InputException)
        {
            return (null, fault.Message);
        }
    }

    private IEnumerable<string> Others()
    {
        IEnumerable<string> all = lookIn.Count == 0 ? world.Ports() : lookIn.SelectMany(Match);
        return all.Where(p => p != ram.Port && p != _lastPort).Distinct().Order(StringComparer.Ordinal);
    }

    private static IEnumerable<string> Match(string pattern)
    {
        string? folder = Path.GetDirectoryName(pattern);
        if (string.IsNullOrEmpty(folder) || !pattern.AsSpan().ContainsAny('*', '?'))
        {
            return [pattern];
        }

        string name = Path.GetFileName(pattern);
        return Directory.Exists(folder)
            ? Directory.EnumerateFileSystemEntries(folder).Where(e => FileSystemName.MatchesSimpleExpression(name, Path.GetFileName(e)))
            : [];
    }
}
