using System.Collections.Frozen;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Web;

/// <summary>
/// The files of the page, out of the program itself. A name either stands in the table or does not exist: no path of
/// the disk is ever made from a request.
/// </summary>
internal static class PageFiles
{
    private const string Prefix = "page/";

    private static readonly FrozenDictionary<string, byte[]> Files = Read();

    /// <summary>A file of the page; null for a name that is none.</summary>
    public static byte[]? Find(string name) => Files.GetValueOrDefault(name);

    /// <summary>Answers with a file.</summary>
    public static IResult Answer(string name) => Find(name) is { } bytes
        ? Results.Bytes(bytes, TypeOf(name))
        : Results.Text("There is no such page.", "text/plain", statusCode: StatusCodes.Status404NotFound);

    private static string TypeOf(string name) => Path.GetExtension(name) switch
    {
        ".html" => "text/html; charset=utf-8",
        ".css" => "text/css; charset=utf-8",
        ".js" => "text/javascript; charset=utf-8",
        ".json" => "application/json; charset=utf-8",
        ".svg" => "image/svg+xml",
        ".woff2" => "font/woff2",
        _ => "text/plain; charset=utf-8",
    };

    private static FrozenDictionary<string, byte[]> Read()
    {
        var assembly = typeof(PageFiles).Assembly;
        return assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
            .ToFrozenDictionary(name => name[Prefix.Length..], name =>
            {
                using System.IO.Stream stream = assembly.GetManifestResourceStream(name)!;
                var bytes = new byte[stream.Length];
                stream.ReadExactly(bytes);
                return bytes;
            });
    }
}
