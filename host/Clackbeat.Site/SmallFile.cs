using Clackbeat.Site.Facts;

namespace Clackbeat.Site;

/// <summary>
/// Files that a person writes: some kilobytes. Whatever else a path names, a recording or a device that never ends, no more than
/// the largest such file is read from it; a device says of itself that its length is nothing.
/// </summary>
public static class SmallFile
{
    /// <summary>Longest file that is read [bytes].</summary>
    public const int LargestBytes = 1_000_000;

    /// <summary>Reads a file whole.</summary>
    /// <param name="path">The file; it exists.</param>
    /// <param name="what">What it should be, as messages say it.</param>
    /// <exception cref="InputException">It is larger than any such file.</exception>
    public static byte[] ReadBytes(string path, Fact what)
    {
        using FileStream file = File.OpenRead(path);
        var bytes = new MemoryStream();
        byte[] chunk = new byte[16 * 1024];
        for (int count; (count = file.Read(chunk)) > 0;)
        {
            bytes.Write(chunk, 0, count);
            if (bytes.Length > LargestBytes)
            {
                throw InputException.Of("input.too-large", ("file", path), ("what", what));
            }
        }

        return bytes.ToArray();
    }

    /// <summary>Reads a file whole as text, UTF-8 unless its first bytes say otherwise.</summary>
    /// <param name="path">The file; it exists.</param>
    /// <param name="what">What it should be, as messages say it.</param>
    /// <exception cref="InputException">It is larger than any such file.</exception>
    public static string ReadText(string path, Fact what)
    {
        using var reader = new StreamReader(new MemoryStream(ReadBytes(path, what)));
        return reader.ReadToEnd();
    }
}
