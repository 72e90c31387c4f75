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
            throw new InputException(
                $"The logger speaks protocol version {version}, this program reads up to version {ProtocolVersion.Number}. "
                + "Install a newer clackbeat on this computer.");
        }

        if (version < 1)
        {
            throw new InputException(
                $"The logger speaks protocol version {version}, this program reads versions 1 to {ProtocolVersion.Number}. "
                + "Put the firmware that came with this program on the logger.");
        }

        if (version == ProtocolVersion.Number && fingerprint != ProtocolVersion.Fingerprint)
        {
            throw new InputException(
                $"The logger and this program both say protocol version {version}, but their layouts differ "
                + $"({fingerprint:X8} there, {ProtocolVersion.Fingerprint:X8} here). "
                + "Put the firmware that came with this program on the logger.");
        }
    }
}
