using Clackbeat.Logger.Board;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Alone;

/// <summary>
/// What a lone logger remembers over sleep and loss of power (SPEC §10): two files written in turn, so that a cut
/// while one is written leaves the other.
/// </summary>
public sealed class LoneMemory
{
    private readonly StateFrame _file;
    private readonly BurstStart _candidate = new();
    private int _slot;

    /// <summary>Makes a memory over a storage.</summary>
    public LoneMemory(IBurstStorage storage)
    {
        _file = new StateFrame(storage);
    }

    /// <summary>The burst last begun, and the sleep asked for since; boot and burst 0 when nothing is remembered.</summary>
    public BurstStart Last { get; } = new();

    /// <summary>Reads the newer intact file.</summary>
    public void Load()
    {
        Last.Boot = 0;
        Last.Burst = 0;
        Last.SleptMilliseconds = 0;
        for (int slot = 0; slot < 2; slot++)
        {
            if (_file.TryRead(slot, _candidate) && IsNewer())
            {
                Last.Boot = _candidate.Boot;
                Last.Burst = _candidate.Burst;
                Last.TimeMicroseconds = _candidate.TimeMicroseconds;
                Last.SleptMilliseconds = _candidate.SleptMilliseconds;
                _slot = slot;
            }
        }
    }

    /// <summary>Writes <see cref="Last"/> over the older file.</summary>
    public bool Save()
    {
        _slot = 1 - _slot;
        return _file.Write(_slot, Last);
    }

    // Within one boot the later write has the later device time.
    private bool IsNewer() => _candidate.Boot > Last.Boot
        || (_candidate.Boot == Last.Boot && _candidate.TimeMicroseconds >= Last.TimeMicroseconds);
}
