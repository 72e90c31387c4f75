using System.Reflection;

[assembly: AssemblyVersion("1.1.0.0")]

namespace System.IO;

public enum SeekOrigin
{
    Begin = 0,
    Current = 1,
    End = 2,
}

public abstract class Stream : MarshalByRefObject, IDisposable
{
    public abstract long Length { get; }

    public abstract void Flush();

    public abstract int Read(byte[] buffer, int offset, int count);

    public abstract long Seek(long offset, SeekOrigin origin);

    public abstract void SetLength(long value);

    public abstract void Write(byte[] buffer, int offset, int count);

    public virtual void Close() => throw new NotSupportedException();

    public void Dispose() => throw new NotSupportedException();
}
