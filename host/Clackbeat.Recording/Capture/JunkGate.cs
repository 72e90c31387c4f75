using Clackbeat.Recording.Link;

namespace Clackbeat.Recording.Capture;

/// <summary>
/// Passes bytes on verbatim, but not without end when no sense comes of them: what runs on for long without one good
/// frame is no noise on a line but another device, or a wrong speed, and would flood the disk (recording-format §5).
/// </summary>
/// <param name="pass">Takes what is to be kept.</param>
/// <param name="count">Told how many bytes were not kept, once frames come again or at the end.</param>
internal sealed class JunkGate(Action<LineChunk> pass, Action<long> count)
{
    private const long JunkToPass = 8192;

    private long _junk;
    private long _stopped;
    private LineChunk? _held;

    /// <summary>Takes a chunk.</summary>
    /// <param name="chunk">The chunk.</param>
    /// <param name="sense">A good frame ended in it.</param>
    public void Take(LineChunk chunk, bool sense)
    {
        if (sense)
        {
            if (_held is { } held)
            {
                // The good frame may have begun in it.
                _stopped -= held.Bytes.Length;
                pass(held);
            }

            Reset();
            Close();
        }
        else
        {
            _junk += chunk.Bytes.Length;
        }

        if (_junk > JunkToPass)
        {
            _held = chunk;
            _stopped += chunk.Bytes.Length;
            return;
        }

        pass(chunk);
    }

    /// <summary>The line was opened anew.</summary>
    public void Reset()
    {
        _held = null;
        _junk = 0;
    }

    /// <summary>Tells what was not kept.</summary>
    public void Close()
    {
        if (_stopped > 0)
        {
            count(_stopped);
            _stopped = 0;
        }
    }
}
