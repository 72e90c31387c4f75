using Clackbeat.Recording.Files;

namespace Clackbeat.Unattended.Raw;

/// <summary>A small file that is always whole: the old content or the new, whatever stops the program or the power.</summary>
public static class AtomicFile
{
    /// <summary>Writes a text (UTF-8) in place of what was there.</summary>
    /// <param name="path">The file.</param>
    /// <param name="text">Its new content.</param>
    public static void Write(string path, string text)
    {
        string temporary = path + ".new";
        using (var file = new FileStream(temporary, FileMode.Create, FileAccess.Write))
        {
            file.Write(System.Text.Encoding.UTF8.GetBytes(text));
            file.Flush(flushToDisk: true);
        }

        File.Move(temporary, path, overwrite: true);
        FolderSync.Flush(Path.GetDirectoryName(Path.GetFullPath(path))!);
    }
}
