using Clackbeat.Unattended.Raw;
using CsCheck;

namespace Clackbeat.Unattended.Tests.Raw;

/// <summary>A ram's name is a text from a file; its folder never lies anywhere but in the folder of bursts.</summary>
public class RawFolderNameTests
{
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

    [Fact]
    public void So_does_any_other() => Gen.String[0, 80].Sample(StaysInside, iter: 3000);

    private static bool StaysInside(string ram)
    {
        string name = RawFolder.NameOf(ram);
        return name.Length is > 0 and < 60 && Path.GetDirectoryName(Path.GetFullPath(Path.Combine(Root, name))) == Root;
    }
}
