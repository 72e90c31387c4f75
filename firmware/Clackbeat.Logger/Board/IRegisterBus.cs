namespace Clackbeat.Logger.Board;

/// <summary>A chip with numbered registers on a two-wire bus. Each call may throw whatever the system throws.</summary>
public interface IRegisterBus
{
    /// <summary>Reads registers one after another, the first into the buffer's first place.</summary>
    void Read(int register, byte[] buffer, int count);

    /// <summary>Writes registers one after another.</summary>
    void Write(int register, byte[] bytes, int count);
}
