using System.Net;
using Clackbeat.Frame;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using QRCoder;

namespace Clackbeat.Commands.Watch;

/// <summary>What the terminal shows of a watch: where the page is, the codes that open it, what befalls the link.</summary>
internal sealed class WatchScreen(Session session, WatchRequest request)
{
    private readonly Lock _gate = new();
    private string? _code;
    private int? _port;

    /// <summary>Says where the page is.</summary>
    public void Open(int httpPort)
    {
        lock (_gate)
        {
            _port = httpPort;
            session.Out.WriteLine($"http://127.0.0.1:{httpPort}/");
            session.Out.Flush();
            if (!request.IsOpenToLan)
            {
                session.Say(Phrases.Say("watching.open"));
                return;
            }

            session.Say(Phrases.Say("watching.lan"));
            session.Say(Phrases.Say("watching.lan-trust"));
            ShowCodeNow();
        }
    }

    /// <summary>Shows a code that opens the page to one more device.</summary>
    public void ShowCode(string newCode)
    {
        lock (_gate)
        {
            _code = newCode;
            if (_port is not null)
            {
                session.Say(Phrases.Say("watching.let-in"));
                ShowCodeNow();
            }
        }
    }

    /// <summary>Says a change of the link.</summary>
    public void Tell(LinkState state, string words)
    {
        lock (_gate)
        {
            session.Say(state == LinkState.Streaming ? Phrases.Say("watching.samples", ("input", request.Input)) : words);
        }
    }

    /// <summary>Says what was recorded.</summary>
    public void Close(RecordingDesk? desk)
    {
        foreach (DeskRecording recording in desk?.All ?? [])
        {
            session.Say(Phrases.Say("watching.recorded", ("file", recording.Path), ("length_s", recording.LengthS), ("marks", recording.Marks)));
        }
    }

    private void ShowCodeNow()
    {
        if (_code is not { Length: 7 } plain)
        {
            return;
        }

        IReadOnlyList<IPAddress> addresses = WatchServer.LanAddresses();
        foreach (IPAddress address in addresses)
        {
            session.Say($"  http://{address}:{_port}/");
        }

        session.Say(Phrases.Say("watching.code", ("code", $"{plain[..3]}-{plain[3..]}")));
        if (addresses.Count == 0)
        {
            session.Warn(Phrases.Say("watching.no-network"));
            return;
        }

        using var generator = new QRCodeGenerator();
        using QRCodeData data = generator.CreateQrCode($"http://{addresses[0]}:{_port}/#{plain}", QRCodeGenerator.ECCLevel.L);
        using var picture = new AsciiQRCode(data);
        session.Say(picture.GetGraphicSmall());
    }
}
