using System;
using Clackbeat.Logger.Board;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;

namespace Clackbeat.Logger.Alone;

/// <summary>
/// Bursts as files on a card (SPEC §10). Whatever the card throws becomes a result and a state here, in one place, so
/// that a worn card costs bursts and never the logger.
/// </summary>
public sealed class BurstFiles : IBurstStorage
{
    // Numbers whose file could not be made leave holes; a longer run of missing numbers is the end.
    private const int LongestHole = 8;

    // A hundred thousand bursts: eleven years of one an hour.
    private const uint FoldersToSearch = 1000;

    // Four sectors: the card's driver writes file table and folder anew with every write, so frames are gathered.
    private const int BlockLength = 2048;

    // Room kept for what ends a file: the last samples, the burst's end and health.
    private const int EndRoom = BlockLength + 1024;

    // What is asked for when a burst grows longer than expected.
    private const int MoreRoom = 16 * BlockLength;

    private const int BlocksToTime = 16;

    private const string Root = "";

    private readonly ICardFiles _card;
    private readonly byte[] _block = new byte[BlockLength];
    private string _folder = "";
    private string _file = "";
    private uint _lastBefore;
    private uint _reading;
    private int _gathered;
    private int _room;
    private bool _open;
    private bool _broken;

    /// <summary>Makes a storage on a card.</summary>
    public BurstFiles(ICardFiles card)
    {
        _card = card;
    }

    /// <inheritdoc/>
    public int State { get; private set; } = StorageStates.Missing;

    /// <inheritdoc/>
    public uint FreeKib { get; private set; } = ProtocolVersion.Unknown32;

    /// <inheritdoc/>
    public uint FirstBurst { get; private set; }

    /// <inheritdoc/>
    public uint LastBurst { get; private set; }

    /// <inheritdoc/>
    public uint BurstCount { get; private set; }

    /// <inheritdoc/>
    public uint BlockMicroseconds { get; private set; } = ProtocolVersion.Unknown32;

    /// <inheritdoc/>
    public uint WorstBlockMicroseconds { get; private set; } = ProtocolVersion.Unknown32;

    /// <inheritdoc/>
    public bool Open()
    {
        try
        {
            if (State == StorageStates.Failing)
            {
                // It may have been pulled, or changed for another.
                _reading = 0;
                _card.Unmount();
            }

            if (_card.Mount())
            {
                State = State == StorageStates.Full ? State : StorageStates.Ready;
                FreeKib = _card.FreeKib;
                return true;
            }
        }
        catch (Exception)
        {
            // No card, or none that can be read: told by the state.
        }

        State = StorageStates.Missing;
        return false;
    }

    /// <inheritdoc/>
    public void FindLast(uint rememberedBurst)
    {
        try
        {
            uint last = rememberedBurst > 0 ? rememberedBurst : HighestOnCard();
            int missing = 0;
            for (uint burst = last + 1; missing < LongestHole; burst++)
            {
                missing = _card.Exists(BurstNames.Folder(burst), BurstNames.File(burst)) ? 0 : missing + 1;
                last = missing == 0 ? burst : last;
            }

            LastBurst = last;
        }
        catch (Exception)
        {
            Fail();
        }
    }

    /// <inheritdoc/>
    public void Survey()
    {
        FirstBurst = 0;
        BurstCount = 0;
        try
        {
            // The remembered number may be one whose file was taken off the card.
            uint top = LastBurst;
            LastBurst = 0;
            uint folders = top / BurstNames.BurstsInFolder;
            for (uint i = 0; i <= folders || (top == 0 && i < FoldersToSearch); i++)
            {
                Count(i * BurstNames.BurstsInFolder);
            }
        }
        catch (Exception)
        {
            Fail();
        }
    }

    /// <inheritdoc/>
    public void Probe(int bytes)
    {
        if (Begin(LastBurst + 1, bytes))
        {
            Abandon();
        }
    }

    /// <inheritdoc/>
    public bool Time(ILoggerBoard board)
    {
        if (!Begin(LastBurst + 1, BlocksToTime * BlockLength))
        {
            return false;
        }

        uint sum = 0;
        uint worst = 0;
        int blocks = 0;
        while (blocks < BlocksToTime)
        {
            long before = board.NowMicroseconds();
            _gathered = BlockLength;
            if (!WriteGathered())
            {
                break;
            }

            uint took = (uint)(board.NowMicroseconds() - before);
            sum += took;
            worst = took > worst ? took : worst;
            blocks++;
        }

        _gathered = 0;
        Abandon();
        if (blocks < BlocksToTime)
        {
            return false;
        }

        BlockMicroseconds = sum / BlocksToTime;
        WorstBlockMicroseconds = worst;
        return true;
    }

    /// <inheritdoc/>
    public bool Begin(uint burst, int bytes)
    {
        _folder = BurstNames.Folder(burst);
        _file = BurstNames.File(burst);
        try
        {
            if (_card.Exists(_folder, _file))
            {
                return false;
            }

            CloseRead();
            _card.MakeFolder(_folder);
            _card.Create(_folder, _file);
            _open = true;
            _gathered = 0;
            _lastBefore = LastBurst;
            LastBurst = burst;
            _broken = false;
            if (_card.HasRoomFor(bytes + EndRoom))
            {
                _room = bytes;
                State = StorageStates.Ready;
                return true;
            }

            Abandon();
            State = StorageStates.Full;
        }
        catch (Exception)
        {
            if (_open)
            {
                // Nothing is in it yet.
                Abandon();
            }

            Fail();
        }

        return false;
    }

    /// <inheritdoc/>
    public bool Append(byte[] bytes, int count)
    {
        if (!_open || _broken)
        {
            return false;
        }

        // The card is given whole blocks at their places. A frame that it can't take leaves what was gathered before.
        int first = BlockLength - _gathered;
        if (count < first)
        {
            Array.Copy(bytes, 0, _block, _gathered, count);
            _gathered += count;
            return true;
        }

        if (!HasRoom(BlockLength))
        {
            return false;
        }

        Array.Copy(bytes, 0, _block, _gathered, first);
        _gathered = BlockLength;
        if (!WriteGathered())
        {
            return false;
        }

        Array.Copy(bytes, first, _block, 0, count - first);
        _gathered = count - first;
        return true;
    }

    /// <inheritdoc/>
    public bool Flush()
    {
        try
        {
            if (_broken || !HasRoom(_gathered) || !WriteGathered())
            {
                return false;
            }

            _card.Flush();
            return true;
        }
        catch (Exception)
        {
            Break();
            return false;
        }
    }

    /// <inheritdoc/>
    public void UseEndRoom() => _room += EndRoom;

    /// <inheritdoc/>
    public bool End()
    {
        if (!_open)
        {
            return true;
        }

        bool whole = HasRoom(_gathered) && WriteGathered();
        _open = false;
        try
        {
            _card.Close();
            FreeKib = _card.FreeKib;
            return whole;
        }
        catch (Exception)
        {
            Fail();
            return false;
        }
    }

    /// <inheritdoc/>
    public void Abandon()
    {
        _gathered = 0;
        End();
        LastBurst = _lastBefore;
        try
        {
            _card.Delete(_folder, _file);
        }
        catch (Exception)
        {
            Fail();
        }
    }

    /// <inheritdoc/>
    public uint LengthOf(uint burst)
    {
        try
        {
            string folder = BurstNames.Folder(burst);
            string file = BurstNames.File(burst);
            if (_reading != burst)
            {
                if (!_card.Exists(folder, file))
                {
                    return 0;
                }

                OpenToRead(burst, folder, file);
            }

            return (uint)_card.ReadLength;
        }
        catch (Exception)
        {
            _reading = 0;
            return 0;
        }
    }

    /// <inheritdoc/>
    public int Read(uint burst, uint offset, byte[] buffer, int count)
    {
        try
        {
            if (_reading != burst)
            {
                OpenToRead(burst, BurstNames.Folder(burst), BurstNames.File(burst));
            }

            int read = _card.Read(offset, buffer, count);
            if (read == 0)
            {
                CloseRead();
            }

            return read;
        }
        catch (Exception)
        {
            _reading = 0;
            return 0;
        }
    }

    /// <inheritdoc/>
    public int ReadState(int slot, byte[] buffer)
    {
        try
        {
            string file = BurstNames.State(slot);
            if (!_card.Exists(Root, file))
            {
                return 0;
            }

            OpenToRead(0, Root, file);
            int read = _card.Read(0, buffer, FrameLimits.MaxFrame);
            CloseRead();
            return read;
        }
        catch (Exception)
        {
            return 0;
        }
    }

    /// <inheritdoc/>
    public bool WriteState(int slot, byte[] bytes, int count)
    {
        try
        {
            CloseRead();
            if (_card.Write(Root, BurstNames.State(slot), bytes, count))
            {
                return true;
            }

            State = StorageStates.Full;
            return false;
        }
        catch (Exception)
        {
            Fail();
            return false;
        }
    }

    // A burst is longer than was expected when many of its samples came late: then more room is asked for. Nothing is
    // ever handed to a card without room for it.
    private bool HasRoom(int bytes)
    {
        if (bytes <= _room)
        {
            return true;
        }

        try
        {
            if (_card.HasRoomFor(MoreRoom + EndRoom))
            {
                _room = MoreRoom;
                return true;
            }

            State = StorageStates.Full;
        }
        catch (Exception)
        {
            Break();
        }

        return false;
    }

    // A host takes a burst over in pieces of 96 bytes: opening its file for each takes longer than sending it.
    private void OpenToRead(uint burst, string folder, string file)
    {
        _reading = 0;
        _card.OpenToRead(folder, file);
        _reading = burst;
    }

    private void CloseRead()
    {
        _reading = 0;
        _card.CloseRead();
    }

    private bool WriteGathered()
    {
        int count = _gathered;
        if (count == 0)
        {
            return true;
        }

        try
        {
            _gathered = 0;
            _card.Append(_block, count);
            _room -= count;
            return true;
        }
        catch (Exception)
        {
            Break();
            return false;
        }
    }

    // The running burst takes no more: a file that failed once fails again, and every try costs time.
    private void Break()
    {
        _broken = true;
        Fail();
    }

    private void Fail() => State = State == StorageStates.Missing ? State : StorageStates.Failing;

    private uint HighestOnCard()
    {
        for (uint i = FoldersToSearch; i > 0; i--)
        {
            string folder = BurstNames.Folder((i - 1) * BurstNames.BurstsInFolder);
            uint highest = 0;
            if (_card.FolderExists(folder))
            {
                foreach (string file in _card.Files(folder))
                {
                    uint burst = BurstNames.NumberOf(file);
                    highest = burst > highest ? burst : highest;
                }
            }

            if (highest > 0)
            {
                return highest;
            }
        }

        return 0;
    }

    private void Count(uint firstInFolder)
    {
        string folder = BurstNames.Folder(firstInFolder);
        if (!_card.FolderExists(folder))
        {
            return;
        }

        foreach (string file in _card.Files(folder))
        {
            uint burst = BurstNames.NumberOf(file);
            if (burst > 0)
            {
                BurstCount++;
                FirstBurst = FirstBurst == 0 || burst < FirstBurst ? burst : FirstBurst;
                LastBurst = burst > LastBurst ? burst : LastBurst;
            }
        }
    }
}
