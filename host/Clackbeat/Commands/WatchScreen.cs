using System.Net;
using Clackbeat.Frame;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Web;
using QRCoder;

namespace Clackbeat.Commands;

/// <summary>What the terminal shows of a watch: where the page is, the codes that open it, what befalls the link.</summary>
internal sealed class WatchScreen(Session session, WatchRequest request)
{
    private readonly Lock gate = new();
    private string? code;
    private int? port;

    /// <summary>Says where the page is.</summary>
    public void Open(int httpPort)
    {
        lock (gate)
        {
            port = httpPort;
            session.Out.WriteLine($"http://127.0.0.1:{httpPort}/");
            session.Out.Flush();
            if (!request.IsOpenToLan)
            {
                session.Say("Open this address in a browser on this computer. Nobody else can reach it. Ctrl-C ends it.");
                return;
            }

            session.Say("The page is open to the local network, to each device that brings the code. It travels unencrypted: use this on");
            session.Say("a network whose members you trust. Ctrl-C ends it.");
            ShowCodeNow();
        }
    }

    /// <summary>Shows a code that opens the page to one more device.</summary>
    public void ShowCode(string newCode)
    {
        lock (gate)
        {
            code = newCode;
            if (port is not null)
            {
                session.Say("A device was let in with the code. For the next one:");
                ShowCodeNow();
            }
        }
    }

    /// <summary>Says a change of the link.</summary>
    public void Tell(LinkState state, string words)
    {
        lock (gate)
        {
            session.Say(state == LinkState.Streaming ? $"Samples come from {request.Input}." : words);
        }
    }

    /// <summary>Says what was recorded.</summary>
    public void Close(RecordingDesk? desk)
    {
        foreach (DeskRecording recording in desk?.All ?? [])
        {
            session.Say(FormattableString.Invariant($"Recorded {recording.Path}: {recording.LengthS:0} s, {recording.Marks} marks."));
        }
    }

    private void ShowCodeNow()
    {
        if (code is not { Length: 7 } plain)
        {
            return;
        }

        IReadOnlyList<IPAddress> addresses = WatchServer.LanAddresses();
        foreach (IPAddress address in addresses)
        {
            session.Say($"  http://{address}:{port}/");
        }

        session.Say($"  Code: {plain[..3]}-{plain[3..]} (opens it once)");
        if (addresses.Count == 0)
        {
            session.Warn("this computer is in no network, so no other device can reach the page yet.");
            return;
        }

        using var generator = new QRCodeGenerator();
        using QRCodeData data = generator.CreateQrCode($"http://{addresses[0]}:{port}/#{plain}", QRCodeGenerator.ECCLevel.L);
        using var picture = new AsciiQRCode(data);
        session.Say(picture.GetGraphicSmall());
    }
}
