using Clackbeat.Logger.Board;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Alone;

/// <summary>The single frame that a state file on the card holds (SPEC §10). Its room is allocated once.</summary>
public sealed class StateFrame
{
    private readonly IBurstStorage _storage;
    private readonly FrameDecoder _decoder = new();
    private readonly FrameWriter _writer = new();
    private readonly byte[] _buffer = new byte[FrameLimits.MaxFrame];

    /// <summary>Makes a reader and writer of a card's state files.</summary>
    public StateFrame(IBurstStorage storage)
    {
        _storage = storage;
    }

    /// <summary>Reads a file's message; false where there is no file, or its frame is damaged or of another kind.</summary>
    /// <param name="slot">Number of the file, from <see cref="BurstNames"/>.</param>
    /// <param name="message">Takes the fields.</param>
    public bool TryRead(int slot, Message message)
    {
        _decoder.Reset();
        int length = _storage.ReadState(slot, _buffer);
        for (int i = 0; i < length; i++)
        {
            if (_decoder.Push(_buffer[i]))
            {
                return message.TryRead(_decoder.Body, _decoder.BodyLength);
            }
        }

        return false;
    }

    /// <summary>Writes a file anew with a message; false when the card doesn't take it.</summary>
    public bool Write(int slot, Message message)
    {
        message.Write(_writer);
        return _storage.WriteState(slot, _writer.Buffer, _writer.Length);
    }
}
