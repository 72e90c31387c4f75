namespace Clackbeat.Protocol.Framing;

/// <summary>
/// CRC-32/ISO-HDLC (SPEC §1): reflected polynomial EDB88320, initial value and final exclusive-or FFFFFFFF, check
/// word CBF43926. Source: Greg Cook's catalogue of parametrised CRC algorithms; Sarwate, doi 10.1145/63030.63037.
/// </summary>
public static class Crc32
{
    /// <summary>Value before the first byte. Not zero, so that zeros never check as good.</summary>
    public const uint Seed = 0xFFFFFFFF;

    /// <summary>Step table for the last byte of a group.</summary>
    internal static readonly uint[] Table0 = FirstTable();

    /// <summary>Step table for a byte that one other follows in the same group.</summary>
    internal static readonly uint[] Table1 = NextTable(Table0);

    /// <summary>Step table for a byte that two others follow in the same group.</summary>
    internal static readonly uint[] Table2 = NextTable(Table1);

    /// <summary>The finished CRC of a stretch of bytes.</summary>
    public static uint Compute(byte[] bytes, int offset, int count)
    {
        uint[] table = Table0;
        uint crc = Seed;
        for (int i = offset; i < offset + count; i++)
        {
            crc = table[(int)((crc ^ bytes[i]) & 0xFF)] ^ (crc >> 8);
        }

        return ~crc;
    }

    private static uint[] FirstTable()
    {
        uint[] table = new uint[256];
        for (uint i = 0; i < 256; i++)
        {
            uint value = i;
            for (int bit = 0; bit < 8; bit++)
            {
                value = (value & 1) != 0 ? (value >> 1) ^ 0xEDB88320 : value >> 1;
            }

            table[(int)i] = value;
        }

        return table;
    }

    // One zero byte further: what a byte does to the value after another byte has passed.
    private static uint[] NextTable(uint[] previous)
    {
        uint[] table = new uint[256];
        for (int i = 0; i < 256; i++)
        {
            table[i] = Table0[(int)(previous[i] & 0xFF)] ^ (previous[i] >> 8);
        }

        return table;
    }
}
