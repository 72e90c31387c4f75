using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Clackbeat.Unattended.Tests.Crash;

/// <summary>What a call to the system did to files.</summary>
internal enum FileAct
{
    Create,
    Write,
    Truncate,
    Sync,
    Rename,
    Remove,
    MakeFolder,
}

/// <summary>One call to the system, paths from the traced folder.</summary>
/// <param name="Act">What it did.</param>
/// <param name="Path">To what.</param>
/// <param name="To">The new name of a rename.</param>
/// <param name="Offset">Where a write begins; the length that a file was cut to.</param>
/// <param name="Bytes">What was written.</param>
internal sealed partial record FileCall(FileAct Act, string Path, string To = "", long Offset = 0, byte[]? Bytes = null)
{
    /// <summary>Reads what strace -f -y -xx wrote; calls that failed and files elsewhere are left out.</summary>
    public static IReadOnlyList<FileCall> Parse(IEnumerable<string> lines, string folder)
    {
        List<FileCall> calls = [];
        Dictionary<string, string> begun = [];
        foreach (string line in lines)
        {
            string thread = line[..line.IndexOf(' ', StringComparison.Ordinal)];
            string rest = line[thread.Length..].TrimStart();
            if (rest.EndsWith("<unfinished ...>", StringComparison.Ordinal))
            {
                begun[thread] = rest[..^"<unfinished ...>".Length].TrimEnd();
                continue;
            }

            if (Resumed().Match(rest) is { Success: true } resumed)
            {
                rest = begun[thread] + resumed.Groups[1].Value;
            }

            if (Call().Match(rest) is { Success: true } call && Of(call.Groups["name"].Value, call.Groups["arguments"].Value, folder) is { } done)
            {
                calls.Add(done);
            }
        }

        return calls;
    }

    private static FileCall? Of(string name, string arguments, string folder)
    {
        string? Below(string path) => path.StartsWith(folder + "/", StringComparison.Ordinal) ? path[(folder.Length + 1)..] : path == folder ? "" : null;
        string[] strings = [.. Quoted().Matches(arguments).Select(m => Encoding.UTF8.GetString(Decode(m.Groups[1].Value)))];
        string onHandle = Handle().Match(arguments) is { Success: true } handle ? Encoding.UTF8.GetString(Decode(handle.Groups[1].Value)) : "";
        switch (name)
        {
            case "openat" when arguments.Contains("O_CREAT", StringComparison.Ordinal) && Below(strings[0]) is { } made:
                Assert.DoesNotContain("O_TRUNC", arguments, StringComparison.Ordinal);
                return new FileCall(FileAct.Create, made);
            case "pwrite64" when Below(onHandle) is { } written:
                long offset = long.Parse(arguments[(arguments.LastIndexOf(' ') + 1)..], CultureInfo.InvariantCulture);
                return new FileCall(FileAct.Write, written, Offset: offset, Bytes: Decode(Quoted().Match(arguments).Groups[1].Value));
            case "ftruncate" when Below(onHandle) is { } cut:
                // A length is told in hexadecimal or decimal digits.
                return new FileCall(FileAct.Truncate, cut, Offset: long.Parse(arguments[(arguments.LastIndexOf(' ') + 1)..], CultureInfo.InvariantCulture));
            case "fsync" or "fdatasync" when Below(onHandle) is { } synced:
                return new FileCall(FileAct.Sync, synced);
            case "rename" when Below(strings[0]) is { } from:
                return new FileCall(FileAct.Rename, from, Below(strings[1])!);
            case "unlink" or "rmdir" when Below(strings[0]) is { } gone:
                return new FileCall(FileAct.Remove, gone);
            case "mkdir" when Below(strings[0]) is { } folderMade:
                return new FileCall(FileAct.MakeFolder, folderMade);
            case "write" or "writev" or "pwritev" or "pwritev2" or "fallocate" or "creat" or "link" or "linkat" or "renameat" or "renameat2" or "unlinkat" or "mkdirat":
                Assert.True(Below(onHandle) is null && !strings.Any(s => Below(s) is not null), $"a call that is not understood here: {name}({arguments[..Math.Min(200, arguments.Length)]}");
                return null;
            default:
                return null;
        }
    }

    private static byte[] Decode(string text)
    {
        if (!text.Contains('\\', StringComparison.Ordinal))
        {
            return Encoding.UTF8.GetBytes(text);
        }

        byte[] bytes = new byte[text.Length / 4];
        for (int i = 0; i < bytes.Length; i++)
        {
            bytes[i] = Convert.ToByte(text.Substring((4 * i) + 2, 2), 16);
        }

        return bytes;
    }

    // Those that failed end with "= -1 …".
    [GeneratedRegex(@"^(?<name>\w+)\((?<arguments>.*)\)\s+= \d+", RegexOptions.Singleline)]
    private static partial Regex Call();

    [GeneratedRegex(@"^<\.\.\. \w+ resumed>(.*)$")]
    private static partial Regex Resumed();

    [GeneratedRegex("\"((?:[^\"\\\\]|\\\\.)*)\"")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"^\d+<([^>]*)>")]
    private static partial Regex Handle();
}
