using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Link;

namespace Clackbeat.Logger.Tests.Alone;

/// <summary>A burst's file as a host reads it.</summary>
internal sealed class CardFile
{
    private CardFile(List<byte[]> others, List<LoggerSample> samples)
    {
        Others = others;
        Samples = samples;
    }

    /// <summary>Bodies of all frames but those of samples.</summary>
    public List<byte[]> Others { get; }

    public List<LoggerSample> Samples { get; }

    public IEnumerable<byte> Kinds => Others.Select(b => b[0]);

    public static CardFile Read(string path)
    {
        FrameReader reader = new();
        List<byte[]> others = [];
        List<LoggerSample> samples = [];
        reader.OtherFrame = (_, body) => others.Add(body);
        reader.Read(File.ReadAllBytes(path), samples);
        return new CardFile(others, samples);
    }

    public BurstStart Start => Last<BurstStart>(Protocol.Kinds.BurstStart)!;

    public BurstEnd? End => Last<BurstEnd>(Protocol.Kinds.BurstEnd);

    public Health? Health => Last<Health>(Protocol.Kinds.Health);

    public TimeMark? TimeMark => Last<TimeMark>(Protocol.Kinds.TimeMark);

    private T? Last<T>(byte kind)
        where T : Message, new()
    {
        T message = new();
        return Others.LastOrDefault(b => b[0] == kind) is { } body && message.TryRead(body, body.Length) ? message : null;
    }
}
