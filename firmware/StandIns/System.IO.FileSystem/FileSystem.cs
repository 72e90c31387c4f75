using System.Reflection;
using global::System;

[assembly: AssemblyVersion("1.1.0.0")]

namespace System.IO
{
    public enum FileMode
    {
        CreateNew = 1,
        Create = 2,
        Open = 3,
        OpenOrCreate = 4,
        Truncate = 5,
        Append = 6,
    }

    public enum FileAccess
    {
        Read = 1,
        Write = 2,
        ReadWrite = 3,
    }

    public class FileStream : Stream
    {
        public FileStream(string path, FileMode mode, FileAccess access) => throw new NotSupportedException();

        public override long Length => throw new NotSupportedException();

        public override void Close() => throw new NotSupportedException();

        public override void Flush() => throw new NotSupportedException();

        public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }

    public class DirectoryInfo
    {
    }

    public static class File
    {
        public static bool Exists(string path) => throw new NotSupportedException();

        public static void Delete(string path) => throw new NotSupportedException();
    }

    public static class Directory
    {
        public static bool Exists(string path) => throw new NotSupportedException();

        public static DirectoryInfo CreateDirectory(string path) => throw new NotSupportedException();

        public static string[] GetFiles(string path) => throw new NotSupportedException();
    }
}

namespace nanoFramework.System.IO.FileSystem
{
    public class SDCardSpiParameters
    {
        public uint slotIndex;
        public uint spiBus;
        public uint chipSelectPin;
    }

    public class CardDetectParameters
    {
    }

    public class SDCard : IDisposable
    {
        public SDCard(SDCardSpiParameters spiParameters, CardDetectParameters cdParameters = null) => throw new NotSupportedException();

        public bool IsMounted => throw new NotSupportedException();

        public void Mount() => throw new NotSupportedException();

        public void Unmount() => throw new NotSupportedException();

        public void Dispose() => throw new NotSupportedException();
    }
}
