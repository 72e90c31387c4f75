using System.Globalization;
using Clackbeat.Protocol;
using Clackbeat.Site;

namespace Clackbeat.Recording.Link;

/// <summary>Refuses a logger whose samples this program would read wrongly (SPEC §3.5).</summary>
public static class VersionCheck
{
    /// <summary>Throws where a logger's protocol is not one this program reads.</summary>
    public static void Refuse(int version, uint fingerprint)
    {
        if (version > ProtocolVersion.Number)
        {
            throw InputException.Of("line.newer-logger", ("logger", version), ("program", ProtocolVersion.Number));
        }

        if (version < 1)
        {
            throw InputException.Of("line.strange-version", ("logger", version), ("program", ProtocolVersion.Number));
        }

        if (version == ProtocolVersion.Number && fingerprint != ProtocolVersion.Fingerprint)
        {
            throw InputException.Of("line.other-layout", ("version", version), ("there", fingerprint.ToString("X8", CultureInfo.InvariantCulture)), ("here", ProtocolVersion.Fingerprint.ToString("X8", CultureInfo.InvariantCulture)));
        }
    }
}
