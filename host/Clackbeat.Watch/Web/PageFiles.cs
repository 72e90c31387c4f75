using System.Collections.Frozen;
using System.Reflection;
using Clackbeat.Watch.Wording;
using Clackbeat.Words;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Web;

/// <summary>
/// The files of the page, out of the program itself. A name either stands in the table or does not exist: no path of
/// the disk is ever made from a request.
/// </summary>
internal static class PageFiles
{
    /// <summary>The words, which are no file but come out of the catalogue.</summary>
    public const string Words = "words.json";

    private const string Prefix = "page/";

    private static readonly FrozenDictionary<string, byte[]> Files = Read();

    /// <summary>A file of the page; null for a name that is none.</summary>
    public static byte[]? Find(string name) => Files.GetValueOrDefault(name);

    /// <summary>Answers with a file.</summary>
    public static IResult Answer(string name) => Find(name) is { } bytes
        ? Results.Bytes(bytes, TypeOf(name))
        : Results.Text(Phrases.Say("page-server.none"), "text/plain", statusCode: StatusCodes.Status404NotFound);

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
        Assembly assembly = typeof(PageFiles).Assembly;
        return assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
            .Select(name =>
            {
                using System.IO.Stream stream = assembly.GetManifestResourceStream(name)!;
                byte[] bytes = new byte[stream.Length];
                stream.ReadExactly(bytes);
                return (Name: name[Prefix.Length..], Bytes: bytes);
            })
            .Append((Name: Words, Bytes: PageWords.Json))
            .ToFrozenDictionary(file => file.Name, file => file.Bytes, StringComparer.Ordinal);
    }
}
