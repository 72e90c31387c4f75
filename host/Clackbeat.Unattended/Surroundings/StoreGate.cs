using System.Data.Common;
using Clackbeat.Season.Store;
using Clackbeat.Site;

namespace Clackbeat.Unattended.Surroundings;

/// <summary>
/// The season store for all rams, one at a time. A store that fails is closed and opened anew at the next use, so a server
/// that comes back is found again.
/// </summary>
internal sealed class StoreGate(Func<ISeasonStore> open) : IDisposable
{
    private readonly Lock _gate = new();
    private ISeasonStore? _store;

    /// <summary>Opens the store, so that a wrong name is told before anything is waited for.</summary>
    /// <exception cref="InputException">The place is no season store.</exception>
    public string? TryOpen()
    {
        try
        {
            Use(_ => 0);
            return null;
        }
        catch (Exception fault) when (IsFault(fault) && fault is not InputException)
        {
            return fault.Message;
        }
    }

    /// <summary>Does something with the store.</summary>
    public T Use<T>(Func<ISeasonStore, T> work)
    {
        lock (_gate)
        {
            try
            {
                return work(_store ??= open());
            }
            catch
            {
                Close();
                throw;
            }
        }
    }

    /// <summary>What a store throws that may be well again later.</summary>
    public static bool IsFault(Exception fault) => fault is DbException or IOException or InputException or TimeoutException or UnauthorizedAccessException;

    public void Dispose()
    {
        lock (_gate)
        {
            Close();
        }
    }

    private void Close()
    {
        _store?.Dispose();
        _store = null;
    }
}
