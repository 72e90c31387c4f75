using Clackbeat.Unattended.Settings;
using CsCheck;

namespace Clackbeat.Unattended.Tests.Raw;

/// <summary>A ram's name is a text from a file; its folder never lies anywhere but in the folder of bursts.</summary>
public class RawFolderNameTests
{
    private static readonly string[] Pieces =
    [
        "..", ".", "/", "\\", "C:", "\0", "~", "$", "*", ":", " ", "\n", "CON", "nul.", "ram", "\uFF0E\uFF0E", "\u2215", "\u29F8", "\u2024", "\u202E", "\uD800",
    ];

    private static readonly string Root = Path.GetFullPath(Path.Combine(Path.GetTempPath(), "bursts"));

    [Theory]
    [InlineData("..")]
    [InlineData("../../etc/cron.d")]
    [InlineData("/etc/passwd")]
    [InlineData(@"C:\Windows")]
    [InlineData(@"..\..\x")]
    [InlineData("a\0b")]
    [InlineData("")]
    [InlineData("räm/…")]
    public void A_name_that_is_a_path_stays_one_folder_deep(string ram) => Assert.True(StaysInside(ram));

    // Microsoft, "Naming Files, Paths, and Namespaces": these open a device, in whatever folder and letters they are asked for.
    [Theory]
    [InlineData("CON")]
    [InlineData("nul")]
    [InlineData("Aux")]
    [InlineData("PRN")]
    [InlineData("com1")]
    [InlineData("LPT9")]
    [InlineData("(con)")]
    public void A_name_that_is_a_device_on_Windows_is_no_folder_s_name(string ram)
    {
        Assert.DoesNotMatch("^(con|prn|aux|nul|com[0-9]|lpt[0-9])$", FolderName.Of(ram));
        Assert.True(StaysInside(ram));
    }

    [Fact]
    public void So_does_any_other() => Gen.String[0, 80].Sample(StaysInside, iter: 3000);

    // Letters that look like dots and slashes, drive letters, streams, and what shells and disks take for something else.
    [Fact]
    public void So_does_any_made_of_the_pieces_of_paths() =>
        Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i])
            .Array[0, 60].Select(pieces => string.Concat(pieces)).Sample(StaysInside, iter: 3000);

    private static bool StaysInside(string ram)
    {
        string name = FolderName.Of(ram);
        return name.Length is > 0 and < 60 && Path.GetDirectoryName(Path.GetFullPath(Path.Combine(Root, name))) == Root;
    }
}
