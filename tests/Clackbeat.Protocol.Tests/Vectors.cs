namespace Clackbeat.Protocol.Tests;

/// <summary>A golden frame: what its body is, and the bytes on the wire.</summary>
public sealed record Vector(string Name, byte[] Body, byte[] Frame);

/// <summary>Reads the golden vectors, which an encoder outside this project made.</summary>
public static class Vectors
{
    public static IReadOnlyList<Vector> All { get; } = Directory
        .EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "vectors"), "*.txt")
        .SelectMany(Read)
        .ToList();

    public static Vector Named(string name) => All.Single(v => v.Name == name);

    private static IEnumerable<Vector> Read(string path)
    {
        string? name = null;
        string body = "";
        string frame = "";
        foreach (string line in File.ReadLines(path).Append("[end]"))
        {
            string content = line.Split('#')[0].Trim();
            if (content.StartsWith('['))
            {
                if (name is not null)
                {
                    yield return new Vector(name, Bytes(body), Bytes(frame));
                }

                (name, body, frame) = (content.Trim('[', ']'), "", "");
            }
            else if (content.StartsWith('='))
            {
                frame += content[1..];
            }
            else
            {
                body += content;
            }
        }
    }

    private static byte[] Bytes(string hex) => Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal));
}
