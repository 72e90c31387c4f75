using System.Security.Cryptography;
using System.Text;
using Clackbeat.Season.Packets;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;
using Clackbeat.Unattended.Forwarding;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;

namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>A far computer: its store, its outbox, and what sends from there.</summary>
internal sealed class FarSite : IDisposable
{
    public const string Secret = "a secret that nobody guesses";
    private readonly BurstOutbox _outbox;
    private readonly BurstOutbox _refused;
    private readonly ForwardingSeasonStore _store;
    private readonly Forwarder _forwarder;
    private readonly ICarrier _carrier;

    public FarSite(TemporaryFolder folder, string name, Func<ForwardSettings, ICarrier> way, Uri? web = null, BrokerPlace? broker = null, string? trusted = null)
    {
        Name = name;
        string variable = $"CLACKBEAT_TEST_{name}";
        Environment.SetEnvironmentVariable(variable, Secret);
        _outbox = BurstOutbox.Open(folder[$"{name}-forward.db"]);
        _refused = BurstOutbox.Open(folder[$"{name}-refused.db"]);
        _store = new ForwardingSeasonStore(SqliteSeasonStore.Open(folder[$"{name}.db"], create: true), BurstOutbox.Open(folder[$"{name}-forward.db"]));
        _carrier = way(new ForwardSettings(name, new Secret(variable, null), web, broker, trusted));
        _forwarder = new Forwarder(_outbox, _refused, _carrier, News.Add) { Marks = () => [.. _store.Rams().SelectMany(_store.Marks)] };
    }

    public string Name { get; }

    public List<LogNews> News { get; } = [];

    public int Waiting => _outbox.Waiting;

    public int Refused => _refused.Waiting;

    /// <summary>Logs a burst, as the loop of a ram does.</summary>
    public void Log(int number, string? ram = null) => _store.Add([Burst(ram ?? Name, number)]);

    public void Mark(string words) => _store.Add(new MaintenanceMark(Name, LogBench.Start, words));

    public Task<bool> SendAll() => _forwarder.SendAll(CancellationToken.None);

    public static SeasonBurst Burst(string ram, int number) => new()
    {
        Ram = ram,
        SourceHash = SHA256.HashData(Encoding.UTF8.GetBytes($"{ram} {number}")),
        Source = $"burst {number}",
        StartUtc = LogBench.Start.AddMinutes(15 * number),
        StartUncertaintyS = 1.5,
        DurationS = 60,
        State = RamState.Beating,
        Figures = new Dictionary<SeasonFigure, SeasonValue>
        {
            [SeasonFigure.Rate] = new(50 + number, 0.1),
            [SeasonFigure.Delivered] = new(8e-5, null) { IsUpperBound = true },
        },
        Conditions = new Dictionary<string, double> { ["healthy"] = 0.75 },
        Beats = [.. Enumerable.Range(0, 50).Select(i => new SeasonBeat(1.2 * i, 1.2, 4e5 + (100 * number), 2e5, -3e4, null))],
    };

    public void Dispose()
    {
        (_carrier as IDisposable)?.Dispose();
        _store.Dispose();
        _outbox.Dispose();
        _refused.Dispose();
    }
}
