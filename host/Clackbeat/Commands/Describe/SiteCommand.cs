using System.CommandLine;
using Clackbeat.Frame;

namespace Clackbeat.Commands.Describe;

/// <summary><c>site</c>: everything about the file that describes a ram.</summary>
internal static class SiteCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var site = new Command("site", "Make and check the file that describes a ram and its pipes");
        site.Add(SiteNewCommand.Create(session));
        site.Add(SiteCheckCommand.Create(session));
        return site;
    }
}
