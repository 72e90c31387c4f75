using System.Diagnostics;
using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>
/// A store on a server as a host at the pump uses it: what can't be sent waits in a file beside and is sent later, oldest first.
/// A burst leaves the file only after the server has it, and the server keeps it once: whatever breaks in between, none is
/// lost and none doubled.
/// </summary>
public sealed class BufferedSeasonStore : ISeasonStore
{
    private const int ABatch = 100;
    private readonly Lock _turn = new();
    private readonly Func<ISeasonStore> _connect;
    private readonly SqliteSeasonStore _outbox;
    private readonly TimeSpan _retryAfter;
    private ISeasonStore? _server;
    private long _failedAt;

    private BufferedSeasonStore(Func<ISeasonStore> connect, SqliteSeasonStore outbox, TimeSpan retryAfter) =>
        (_connect, _outbox, _retryAfter) = (connect, outbox, retryAfter);

    /// <summary>Why the server could not be reached when last tried; null when it could.</summary>
    public string? Trouble { get; private set; }

    /// <summary>Bursts that wait to be sent.</summary>
    public int Waiting => _outbox.Rams().Sum(ram => _outbox.States(ram, TimeSpanUtc.All).Count);

    /// <summary>Opens it, whether the server answers or not, and sends what waits if it does.</summary>
    /// <param name="connect">Opens the store on the server.</param>
    /// <param name="outbox">File for what waits; made when missing.</param>
    /// <param name="retryAfter">Least time between tries to reach a server that didn't answer; left out: 30 s.</param>
    /// <exception cref="InputException">The server answers, but refuses this user or holds no usable store.</exception>
    public static BufferedSeasonStore Open(Func<ISeasonStore> connect, string outbox, TimeSpan? retryAfter = null)
    {
        var store = new BufferedSeasonStore(connect, SqliteSeasonStore.Open(outbox, create: true), retryAfter ?? TimeSpan.FromSeconds(30));
        try
        {
            store._server = connect();
        }
        catch (StoreUnreachableException failure)
        {
            store.Missed(failure);
        }
        catch
        {
            store.Dispose();
            throw;
        }

        store.CatchUp();
        return store;
    }

    /// <summary>Sends what waits; call it from time to time when nothing else is stored.</summary>
    /// <returns>Bursts still waiting.</returns>
    public int CatchUp()
    {
        OnServer(server => 0, () => 0);
        return Waiting;
    }

    /// <inheritdoc/>
    /// <remarks>Of bursts that wait, those count as new that neither the file nor, as far as is known, the server holds.</remarks>
    public int Add(IReadOnlyCollection<SeasonBurst> bursts) => OnServer(server => server.Add(bursts), () => _outbox.Add(bursts));

    /// <inheritdoc/>
    public void Add(MaintenanceMark mark) => OnServer(
        server =>
        {
            server.Add(mark);
            return 0;
        },
        () =>
        {
            _outbox.Add(mark);
            return 0;
        });

    /// <inheritdoc/>
    /// <remarks>While the server can't be reached, this knows of what waits only.</remarks>
    public bool Has(string ram, byte[] sourceHash) => OnServer(server => server.Has(ram, sourceHash), () => _outbox.Has(ram, sourceHash));

    /// <inheritdoc/>
    public IReadOnlyList<string> Rams() => OnServer(server => server.Rams(), _outbox.Rams);

    /// <inheritdoc/>
    public IReadOnlyList<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span) =>
        OnServer(server => server.Series(ram, figure, span), () => _outbox.Series(ram, figure, span));

    /// <inheritdoc/>
    public IReadOnlyList<BurstState> States(string ram, TimeSpanUtc span) =>
        OnServer(server => server.States(ram, span), () => _outbox.States(ram, span));

    /// <inheritdoc/>
    public IEnumerable<SeasonBurst> Bursts(string ram, TimeSpanUtc span) =>
        OnServer(server => server.Bursts(ram, span), () => _outbox.Bursts(ram, span));

    /// <inheritdoc/>
    public IReadOnlyList<MaintenanceMark> Marks(string ram) => OnServer(server => server.Marks(ram), () => _outbox.Marks(ram));

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (_turn)
        {
            _server?.Dispose();
            _outbox.Dispose();
        }
    }

    private T OnServer<T>(Func<ISeasonStore, T> work, Func<T> meanwhile)
    {
        lock (_turn)
        {
            if (Trouble is not null && Stopwatch.GetElapsedTime(_failedAt) < _retryAfter)
            {
                return meanwhile();
            }

            try
            {
                _server ??= _connect();
                Send(_server);
                T result = work(_server);
                Trouble = null;
                return result;
            }
            catch (Exception failure) when (failure is StoreUnreachableException or InputException)
            {
                // A refusal too may pass, such as a password that is being changed: years of bursts must not stop for it.
                Missed(failure);
                return meanwhile();
            }
        }
    }

    private void Send(ISeasonStore server)
    {
        foreach (string ram in _outbox.Rams())
        {
            while (_outbox.Bursts(ram, TimeSpanUtc.All).Take(ABatch).ToList() is { Count: > 0 } batch)
            {
                server.Add(batch);
                _outbox.Remove(batch, []);
            }

            IReadOnlyList<MaintenanceMark> marks = _outbox.Marks(ram);
            foreach (MaintenanceMark mark in marks)
            {
                server.Add(mark);
            }

            _outbox.Remove([], marks);
        }
    }

    private void Missed(Exception failure) => (Trouble, _failedAt) = (failure.Message, Stopwatch.GetTimestamp());
}
