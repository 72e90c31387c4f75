using Clackbeat.Site;

namespace Clackbeat.Frame;

/// <summary>Pictures that a command writes by themselves: SVG, whatever draws them.</summary>
internal static class PictureFile
{
    /// <summary>Writes a picture.</summary>
    /// <param name="path">The file.</param>
    /// <param name="svg">The picture.</param>
    /// <param name="overwrite">Replace a file of that name.</param>
    /// <exception cref="InputException">The name promises another kind of picture.</exception>
    public static void Write(string path, string svg, bool overwrite)
    {
        Check(path);
        OutputFile.WriteText(path, svg, overwrite);
    }

    /// <summary>Refuses a name that promises another kind of picture, before anything is drawn.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="InputException">It does.</exception>
    public static void Check(string path)
    {
        if (!Path.GetExtension(path).Equals(".svg", StringComparison.OrdinalIgnoreCase))
        {
            throw InputException.Of("input.picture-svg", ("file", path), ("svg", Path.ChangeExtension(path, ".svg")));
        }
    }
}
