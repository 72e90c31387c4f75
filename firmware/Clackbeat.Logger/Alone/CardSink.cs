using Clackbeat.Logger.Board;
using Clackbeat.Protocol;

namespace Clackbeat.Logger.Alone;

/// <summary>The file of the running burst.</summary>
public sealed class CardSink : IFrameSink
{
    private readonly IBurstStorage _storage;

    /// <summary>Makes the sink over a storage.</summary>
    public CardSink(IBurstStorage storage)
    {
        _storage = storage;
    }

    /// <summary>Frames in a row that the card refused.</summary>
    public int Refused { get; private set; }

    /// <summary>Forgets the burst before.</summary>
    public void Reset() => Refused = 0;

    /// <inheritdoc/>
    public int LossReason => LossReasons.Card;

    /// <inheritdoc/>
    public bool CanTake(long nowMicroseconds) => true;

    /// <inheritdoc/>
    public bool Take(byte[] frame, int length, long nowMicroseconds)
    {
        if (_storage.Append(frame, length))
        {
            Refused = 0;
            return true;
        }

        Refused++;
        return false;
    }
}
