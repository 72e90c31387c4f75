namespace Clackbeat.Logger.Board;

/// <summary>A chip on a three-wire bus that answers while it is being told. May throw whatever the system throws.</summary>
public interface ISerialChip
{
    /// <summary>Sends bytes and takes as many that come back meanwhile.</summary>
    void Transfer(byte[] send, byte[] receive);
}
