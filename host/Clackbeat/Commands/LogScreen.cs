using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
using Clackbeat.Unattended.Live;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Commands;

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
    public void Begin() => _session.Say(string.Create(
        CultureInfo.InvariantCulture,
        $"Logging {string.Join(", ", _settings.Rams.Select(r => r.Site.Name))}: {_settings.Length.TotalSeconds:0.#} s every {Every(_settings.Every)} into {SeasonStores.Shown(_settings.Store)}. Ctrl-C ends it."));

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
                string waiting = ram.Pending > 0 ? string.Create(CultureInfo.InvariantCulture, $", {ram.Pending} wait on the disk for the next start") : "";
                _session.Say(string.Create(CultureInfo.InvariantCulture, $"{ram.Ram}: {ram.Stored} {(ram.Stored == 1 ? "burst" : "bursts")} stored{waiting}."));
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
                string.Create(CultureInfo.InvariantCulture, $", {rate.Value:0.0} beats a minute"),
            { State: RamState.Beating } => ", beating",
            { State: RamState.NoSignal } => ", no signal",
            _ => ", stopped",
        };
        string next = ram.NextUtc is { } due ? $", next {due.LocalDateTime:HH:mm}" : "";
        return string.Create(CultureInfo.InvariantCulture, $"{ram.Ram}: {ram.Doing}{last}, {ram.Stored} stored{next}");
    }

    private static string Every(TimeSpan every) => every < TimeSpan.FromMinutes(1)
        ? string.Create(CultureInfo.InvariantCulture, $"{every.TotalSeconds:0.#} s")
        : string.Create(CultureInfo.InvariantCulture, $"{every.TotalMinutes:0.##} min");

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
