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

    private const string Root = "";

    private readonly ICardFiles _card;
    private readonly byte[] _probe = new byte[FrameLimits.MaxFrame];
    private string _folder = "";
    private string _file = "";
    private uint _lastBefore;
    private bool _open;
    private bool _refused;

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
    public bool Open()
    {
        try
        {
            if (_card.Mount())
            {
                State = State == StorageStates.Missing ? StorageStates.Ready : State;
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
            State = StorageStates.Failing;
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
            State = StorageStates.Failing;
        }
    }

    /// <inheritdoc/>
    public void Probe()
    {
        if (Begin(LastBurst + 1))
        {
            Append(_probe, _probe.Length);
            Abandon();
        }
    }

    /// <inheritdoc/>
    public bool Begin(uint burst)
    {
        _folder = BurstNames.Folder(burst);
        _file = BurstNames.File(burst);
        try
        {
            if (_card.Exists(_folder, _file))
            {
                return false;
            }

            _card.MakeFolder(_folder);
            _card.Create(_folder, _file);
            _open = true;
            _refused = false;
            _lastBefore = LastBurst;
            LastBurst = burst;
            return true;
        }
        catch (Exception)
        {
            State = StorageStates.Failing;
            _refused = true;
            return false;
        }
    }

    /// <inheritdoc/>
    public bool Append(byte[] bytes, int count)
    {
        try
        {
            _card.Append(bytes, count);
            State = StorageStates.Ready;
            return true;
        }
        catch (Exception)
        {
            State = StorageStates.Failing;
            _refused = true;
            return false;
        }
    }

    /// <inheritdoc/>
    public bool Flush()
    {
        try
        {
            _card.Flush();
            return true;
        }
        catch (Exception)
        {
            State = StorageStates.Failing;
            return false;
        }
    }

    /// <inheritdoc/>
    public bool End()
    {
        if (!_open)
        {
            return true;
        }

        _open = false;
        try
        {
            _card.Close();
            FreeKib = _card.FreeKib;
            return true;
        }
        catch (Exception)
        {
            State = StorageStates.Failing;
            return false;
        }
    }

    /// <inheritdoc/>
    public void Abandon()
    {
        End();
        LastBurst = _lastBefore;
        try
        {
            _card.Delete(_folder, _file);
        }
        catch (Exception)
        {
            State = StorageStates.Failing;
        }
    }

    /// <inheritdoc/>
    public uint LengthOf(uint burst)
    {
        try
        {
            string folder = BurstNames.Folder(burst);
            string file = BurstNames.File(burst);
            return _card.Exists(folder, file) ? (uint)_card.Length(folder, file) : 0;
        }
        catch (Exception)
        {
            return 0;
        }
    }

    /// <inheritdoc/>
    public int Read(uint burst, uint offset, byte[] buffer, int count)
    {
        try
        {
            return _card.Read(BurstNames.Folder(burst), BurstNames.File(burst), offset, buffer, count);
        }
        catch (Exception)
        {
            return 0;
        }
    }

    /// <inheritdoc/>
    public int ReadState(int slot, byte[] buffer)
    {
        try
        {
            string file = BurstNames.State(slot);
            return _card.Exists(Root, file) ? _card.Read(Root, file, 0, buffer, FrameLimits.MaxFrame) : 0;
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
            _card.Write(Root, BurstNames.State(slot), bytes, count);

            // A card that takes a small file over an old one, but no more of a burst, is full and not failing.
            State = _refused ? StorageStates.Full : StorageStates.Ready;
            return true;
        }
        catch (Exception)
        {
            State = State == StorageStates.Missing ? State : StorageStates.Failing;
            return false;
        }
    }

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
