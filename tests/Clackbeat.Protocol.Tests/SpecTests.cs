using System.Text;
using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Tests;

/// <summary>The page, the code and the published algorithm agree.</summary>
public class SpecTests
{
    [Fact]
    public void TheFingerprintIsThatOfThePage()
    {
        byte[] layout = Encoding.UTF8.GetBytes(string.Join('\n', LayoutLines()) + "\n");
        Assert.Equal(ProtocolVersion.Fingerprint, System.IO.Hashing.Crc32.HashToUInt32(layout));
    }

    // The check word of CRC-32/ISO-HDLC in Greg Cook's catalogue. Its initial value is FFFFFFFF, as SPEC §1 has it, so
    // the general library gives the same number for all input.
    [Fact]
    public void TheCrcGivesThePublishedCheckWord()
    {
        Assert.Equal(0xCBF43926, Framing.Crc32.Compute("123456789"u8.ToArray(), 0, 9));
    }

    [Fact]
    public void TheCrcIsThatOfAGeneralLibraryForAnyBytes()
    {
        Random random = new(1);
        for (int length = 0; length <= FrameLimits.MaxBody; length++)
        {
            byte[] bytes = new byte[length];
            random.NextBytes(bytes);
            Assert.Equal(System.IO.Hashing.Crc32.HashToUInt32(bytes), Framing.Crc32.Compute(bytes, 0, length));
        }
    }

    internal static IEnumerable<string> LayoutLines(string fence = "```layout") => File
        .ReadLines(Path.Combine(AppContext.BaseDirectory, "SPEC.md"))
        .SkipWhile(l => l != fence)
        .Skip(1)
        .TakeWhile(l => l != "```");
}
