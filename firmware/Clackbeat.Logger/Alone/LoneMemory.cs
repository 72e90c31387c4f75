using Clackbeat.Logger.Board;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Alone;

/// <summary>
/// What a lone logger remembers over sleep and loss of power (SPEC §10): two files written in turn, so that a cut
/// while one is written leaves the other.
/// </summary>
public sealed class LoneMemory
{
    private readonly IBurstStorage _storage;
    private readonly BurstStart _candidate = new();
    private readonly FrameDecoder _decoder = new();
    private readonly FrameWriter _writer = new();
    private readonly byte[] _buffer = new byte[FrameLimits.MaxFrame];
    private int _slot;

    /// <summary>Makes a memory over a storage.</summary>
    public LoneMemory(IBurstStorage storage)
    {
        _storage = storage;
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
            if (TryRead(slot) && IsNewer())
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
        Last.Write(_writer);
        return _storage.WriteState(_slot, _writer.Buffer, _writer.Length);
    }

    private bool TryRead(int slot)
    {
        _decoder.Reset();
        int length = _storage.ReadState(slot, _buffer);
        for (int i = 0; i < length; i++)
        {
            if (_decoder.Push(_buffer[i]))
            {
                return _candidate.TryRead(_decoder.Body, _decoder.BodyLength);
            }
        }

        return false;
    }

    // Within one boot the later write has the later device time.
    private bool IsNewer() => _candidate.Boot > Last.Boot
        || (_candidate.Boot == Last.Boot && _candidate.TimeMicroseconds >= Last.TimeMicroseconds);
}
