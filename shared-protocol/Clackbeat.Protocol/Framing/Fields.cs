namespace Clackbeat.Protocol.Framing;

/// <summary>Reads little-endian numbers out of a body. The caller has checked the length.</summary>
public static class Fields
{
    /// <summary>A 16-bit number.</summary>
    public static int U16(byte[] body, int at) => body[at] | (body[at + 1] << 8);

    /// <summary>A 32-bit number.</summary>
    public static uint U32(byte[] body, int at) => (uint)U16(body, at) | ((uint)U16(body, at + 2) << 16);

    /// <summary>A 48-bit number.</summary>
    public static long U48(byte[] body, int at) => (long)U32(body, at) | ((long)U16(body, at + 4) << 32);
}
