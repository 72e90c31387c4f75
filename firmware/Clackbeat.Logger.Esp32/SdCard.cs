using System.IO;
using Clackbeat.Logger.Board;
using Clackbeat.Protocol;
using nanoFramework.Hardware.Esp32;
using nanoFramework.System.IO.FileSystem;

namespace Clackbeat.Logger.Esp32;

/// <summary>An SD card on the SPI bus. What the file system throws goes to the caller.</summary>
internal sealed class SdCard : ICardFiles
{
    private const string Root = "D:\\";
    private const uint SpiBus = 1;

    private SDCard? _card;
    private FileStream? _file;
    private FileStream? _reading;

    /// <inheritdoc/>
    public uint FreeKib => ProtocolVersion.Unknown32;

    /// <inheritdoc/>
    public bool Mount()
    {
        if (_card == null)
        {
            Configuration.SetPinFunction(Wiring.CardMosiPin, DeviceFunction.SPI1_MOSI);
            Configuration.SetPinFunction(Wiring.CardMisoPin, DeviceFunction.SPI1_MISO);
            Configuration.SetPinFunction(Wiring.CardClockPin, DeviceFunction.SPI1_CLOCK);
            _card = new SDCard(new SDCardSpiParameters { spiBus = SpiBus, chipSelectPin = Wiring.CardSelectPin });
        }

        if (!_card.IsMounted)
        {
            _card.Mount();
        }

        return _card.IsMounted;
    }

    /// <inheritdoc/>
    public void Unmount()
    {
        _file = null;
        _reading = null;
        if (_card != null && _card.IsMounted)
        {
            _card.Unmount();
        }
    }

    /// <inheritdoc/>
    public bool FolderExists(string folder) => Directory.Exists(Root + folder);

    /// <inheritdoc/>
    public void MakeFolder(string folder)
    {
        if (!Directory.Exists(Root + folder))
        {
            Directory.CreateDirectory(Root + folder);
        }
    }

    /// <inheritdoc/>
    public string[] Files(string folder) => Directory.GetFiles(Root + folder);

    /// <inheritdoc/>
    public bool Exists(string folder, string name) => File.Exists(PathOf(folder, name));

    /// <inheritdoc/>
    public void Create(string folder, string name) =>
        _file = new FileStream(PathOf(folder, name), FileMode.CreateNew, FileAccess.Write);

    /// <inheritdoc/>
    public bool HasRoomFor(int bytes)
    {
        FileStream file = _file!;
        long before = file.Length;
        file.SetLength(before + bytes);
        bool room = file.Length >= before + bytes;
        file.SetLength(before);
        file.Seek(before, SeekOrigin.Begin);
        return room;
    }

    /// <inheritdoc/>
    public void Append(byte[] bytes, int count) => _file!.Write(bytes, 0, count);

    /// <inheritdoc/>
    public void Flush() => _file!.Flush();

    /// <inheritdoc/>
    public void Close()
    {
        // Forgotten first: a card that was pulled lets nothing be closed.
        FileStream? file = _file;
        _file = null;
        file?.Close();
    }

    /// <inheritdoc/>
    public void Delete(string folder, string name) => File.Delete(PathOf(folder, name));

    /// <inheritdoc/>
    public long ReadLength => _reading!.Length;

    /// <inheritdoc/>
    public void OpenToRead(string folder, string name)
    {
        CloseRead();
        _reading = new FileStream(PathOf(folder, name), FileMode.Open, FileAccess.Read);
    }

    /// <inheritdoc/>
    public void CloseRead()
    {
        // Forgotten first: a card that was pulled lets nothing be closed.
        FileStream? file = _reading;
        _reading = null;
        file?.Close();
    }

    /// <inheritdoc/>
    public int Read(long offset, byte[] buffer, int count)
    {
        // Behind its end there is nothing to read, and nowhere to seek to.
        if (offset >= _reading!.Length)
        {
            return 0;
        }

        _reading.Seek(offset, SeekOrigin.Begin);
        return _reading.Read(buffer, 0, count);
    }

    /// <inheritdoc/>
    public bool Write(string folder, string name, byte[] bytes, int count)
    {
        FileStream file = new(PathOf(folder, name), FileMode.Create, FileAccess.Write);
        try
        {
            file.SetLength(count);
            if (file.Length < count)
            {
                return false;
            }

            file.Seek(0, SeekOrigin.Begin);
            file.Write(bytes, 0, count);
            return true;
        }
        finally
        {
            file.Close();
        }
    }

    // The root's own name ends in its separator.
    private static string PathOf(string folder, string name) =>
        folder.Length == 0 ? Root + name : Root + folder + "\\" + name;
}
