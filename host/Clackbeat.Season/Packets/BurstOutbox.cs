using Clackbeat.Season.Store;

namespace Clackbeat.Season.Packets;

/// <summary>
/// Bursts and marks that wait to be sent elsewhere, in a file of a season store's form. What was taken over is removed only then, so a
/// crash or weeks without a network lose nothing; what is sent a second time is known there by its hash.
/// </summary>
public sealed class BurstOutbox : IDisposable
{
    private const int BurstsAPacket = 50;
    private const int MarksAPacket = 200;

    private readonly SqliteSeasonStore _file;

    private BurstOutbox(SqliteSeasonStore file) => _file = file;

    /// <summary>Opens one; several may be open on one file.</summary>
    /// <param name="path">The file; made when missing.</param>
    public static BurstOutbox Open(string path) => new(SqliteSeasonStore.Open(path, create: true));

    /// <summary>Bursts that wait.</summary>
    public int Waiting => _file.Rams().Sum(ram => _file.States(ram, TimeSpanUtc.All).Count);

    /// <summary>Puts bursts in.</summary>
    public void Add(IReadOnlyCollection<SeasonBurst> bursts) => _file.Add(bursts);

    /// <summary>Puts a mark in.</summary>
    public void Add(MaintenanceMark mark) => _file.Add(mark);

    /// <summary>What to send next: the oldest of one ram, as much as a packet takes; null for nothing.</summary>
    /// <param name="most">Most bursts.</param>
    public BurstPacket? Next(int most = BurstsAPacket)
    {
        foreach (string ram in _file.Rams())
        {
            int beats = 0;
            var bursts = _file.Bursts(ram, TimeSpanUtc.All).Take(most).TakeWhile((b, i) => (beats += b.Beats.Count) <= PacketLimits.Beats || i == 0).ToList();
            IReadOnlyList<MaintenanceMark> marks = [.. _file.Marks(ram).Take(MarksAPacket)];
            if (bursts.Count + marks.Count > 0)
            {
                return new BurstPacket(bursts, marks);
            }
        }

        return null;
    }

    /// <summary>Takes out what was taken over.</summary>
    /// <param name="packet">What <see cref="Next"/> gave.</param>
    public void Remove(BurstPacket packet) => _file.Remove(packet.Bursts, packet.Marks);

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();
}
