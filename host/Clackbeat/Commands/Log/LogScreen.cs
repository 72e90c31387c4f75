using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;
using Clackbeat.Unattended.Live;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Commands.Log;

/// <summary>What a person sees of a running log: news as lines, and on a terminal one line that shows how it stands.</summary>
internal sealed class LogScreen : IDisposable
{
    private const int PlainWidth = 80;

    private readonly Session _session;
    private readonly LogRun _run;
    private readonly LogSettings _settings;
    private readonly Lock _gate = new();
    private readonly Timer? _timer;
    private int _shown;

    public LogScreen(Session session, LogRun run, LogSettings settings)
    {
        (_session, _run, _settings) = (session, run, settings);
        _timer = session.ErrorIsTerminal ? new Timer(_ => Show(), null, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(1)) : null;
    }

    /// <summary>Says what is going to happen.</summary>
    public void Begin() => _session.Say(Phrases.Say("logging.begin", ("rams", string.Join(", ", _settings.Rams.Select(r => r.Site.Name))), ("length_s", _settings.Length.TotalSeconds), ("every", Every(_settings.Every)), ("store", SeasonStores.Shown(_settings.Store))));

    /// <summary>Says something.</summary>
    public void Tell(LogNews news)
    {
        lock (_gate)
        {
            Clear();
            string words = news.Ram is null ? news.Words : $"{news.Ram}: {news.Words}";
            if (news.IsTrouble)
            {
                _session.Warn(words);
            }
            else
            {
                _session.Say(words);
            }
        }
    }

    /// <summary>Says what was done.</summary>
    public void End()
    {
        lock (_gate)
        {
            Clear();
            foreach (RamStatus ram in _run.Status)
            {
                _session.Say(ram.Pending > 0
                    ? Phrases.Say("logging.stored-waiting", ("ram", ram.Ram), ("bursts", ram.Stored), ("pending", ram.Pending))
                    : Phrases.Say("logging.stored", ("ram", ram.Ram), ("bursts", ram.Stored)));
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _timer?.Dispose();

    private void Show()
    {
        lock (_gate)
        {
            string words = string.Join("  |  ", _run.Status.Select(Words));
            int room = Math.Max(20, Width() - 1);
            words = words.Length > room ? words[..(room - 1)] + "…" : words;
            _session.Error.Write($"\r{words.PadRight(_shown)}");
            _shown = words.Length;
        }
    }

    private void Clear()
    {
        if (_shown > 0)
        {
            _session.Error.Write($"\r{new string(' ', _shown)}\r");
            _shown = 0;
        }
    }

    private static string Words(RamStatus ram)
    {
        string last = ram.Last switch
        {
            null => "",
            { State: RamState.Beating } burst when burst.Figures.TryGetValue(SeasonFigure.Rate, out SeasonValue rate) =>
                Phrases.Say("logging.rate", ("rate", rate.Value)),
            { State: RamState.Beating } => Phrases.Say("logging.beating"),
            { State: RamState.NoSignal } => Phrases.Say("logging.no-signal"),
            _ => Phrases.Say("logging.stopped"),
        };
        string next = ram.NextUtc is { } due ? Phrases.Say("logging.next", ("time", due.LocalDateTime.ToString("HH:mm", CultureInfo.InvariantCulture))) : "";
        return Phrases.Say("logging.status", ("ram", ram.Ram), ("activity", ram.Activity), ("last", last), ("stored", ram.Stored), ("next", next));
    }

    private static string Every(TimeSpan every) => Phrases.Number(every < TimeSpan.FromMinutes(1)
        ? string.Create(CultureInfo.InvariantCulture, $"{every.TotalSeconds:0.#} s")
        : string.Create(CultureInfo.InvariantCulture, $"{every.TotalMinutes:0.##} min"));

    private static int Width()
    {
        try
        {
            return Console.WindowWidth is > 0 and var width ? width : PlainWidth;
        }
        catch (IOException)
        {
            return PlainWidth;
        }
    }
}
