using Clackbeat.Season.Packets;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Intake;

/// <summary>What became of a packet.</summary>
public enum IntakeVerdict
{
    /// <summary>It is in the store.</summary>
    Stored,

    /// <summary>It can't be used.</summary>
    Unusable,

    /// <summary>Its sender may not send bursts of one of its rams.</summary>
    Forbidden,

    /// <summary>The store can't be used now.</summary>
    Later,
}

/// <summary>What became of a packet, and in words where it wasn't stored.</summary>
/// <param name="Verdict">What.</param>
/// <param name="Stored">Bursts that were new.</param>
/// <param name="Known">Bursts that the store had.</param>
/// <param name="Words">Why not; empty for stored.</param>
public readonly record struct IntakeResult(IntakeVerdict Verdict, int Stored, int Known, string Words);

/// <summary>Takes packets of far computers into the store, whatever the way by which they came.</summary>
/// <param name="open">Opens the store.</param>
/// <param name="sites">Who may send what, by name.</param>
/// <param name="time">The calendar.</param>
/// <param name="tell">Told what a keeper should know.</param>
public sealed class IntakeDesk(Func<ISeasonStore> open, IReadOnlyDictionary<string, IntakeSite> sites, TimeProvider time, Action<LogNews> tell) : IDisposable
{
    private readonly StoreGate _store = new(open);
    private readonly Lock _telling = new();

    /// <summary>Opens the store, so that a wrong name is told at once.</summary>
    /// <exception cref="InputException">The place is no season store.</exception>
    public void Begin()
    {
        if (_store.TryOpen() is { } fault)
        {
            Tell(new LogNews(null, Phrases.Say("intake.store-away", ("why", fault)), true));
        }
    }

    /// <summary>The site of a name; null for none.</summary>
    public IntakeSite? Find(string site) => sites.GetValueOrDefault(site);

    /// <summary>Takes a packet; from any thread.</summary>
    /// <param name="site">The sender, who has shown that it is the one.</param>
    /// <param name="bytes">The packet.</param>
    public IntakeResult Take(IntakeSite site, ReadOnlyMemory<byte> bytes)
    {
        IntakeResult result = TakeOrSay(site, bytes);
        Tell(result.Verdict == IntakeVerdict.Stored
            ? new LogNews(null, Phrases.Say("intake.taken", ("site", site.Name), ("bursts", result.Stored), ("known", result.Known)), false)
            : new LogNews(null, Phrases.Say("intake.refused", ("site", site.Name), ("why", result.Words)), true));
        return result;
    }

    /// <summary>Tells of a sender that didn't show who it is.</summary>
    internal void TellOfStranger(string from) => Tell(new LogNews(null, Phrases.Say("intake.stranger", ("from", from)), true));

    /// <summary>Tells something of the way by which packets come.</summary>
    internal void Tell(LogNews news)
    {
        lock (_telling)
        {
            tell(news);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _store.Dispose();

    private IntakeResult TakeOrSay(IntakeSite site, ReadOnlyMemory<byte> bytes)
    {
        BurstPacket packet;
        try
        {
            packet = PacketReader.Read(bytes, time.GetUtcNow());
        }
        catch (InputException unusable)
        {
            return new IntakeResult(IntakeVerdict.Unusable, 0, 0, unusable.Message);
        }

        if (packet.Rams.FirstOrDefault(ram => !site.May(ram)) is { } other)
        {
            return new IntakeResult(IntakeVerdict.Forbidden, 0, 0, Phrases.Say("intake.other-ram", ("site", site.Name), ("ram", other)));
        }

        try
        {
            return _store.Use(store => Store(store, packet));
        }
        catch (Exception fault) when (StoreGate.IsFault(fault) || fault is StoreUnreachableException)
        {
            return new IntakeResult(IntakeVerdict.Later, 0, 0, Phrases.Say("intake.later", ("why", fault.Message)));
        }
    }

    private static IntakeResult Store(ISeasonStore store, BurstPacket packet)
    {
        int added = packet.Bursts.Count > 0 ? store.Add(packet.Bursts) : 0;
        foreach (MaintenanceMark mark in packet.Marks)
        {
            store.Add(mark);
        }

        return new IntakeResult(IntakeVerdict.Stored, added, packet.Bursts.Count - added, "");
    }
}
