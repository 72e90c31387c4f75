using Clackbeat.Season.Store;

namespace Clackbeat.Unattended.Live;

/// <summary>How a ram of the log stands, for a screen.</summary>
/// <param name="Ram">Name.</param>
/// <param name="Activity">What the log does with it now, in a few words.</param>
/// <param name="Last">Its last stored burst; null before the first since the start.</param>
/// <param name="Stored">Bursts stored since the start.</param>
/// <param name="Pending">Bursts recorded and not stored yet.</param>
/// <param name="NextUtc">When the next burst is due.</param>
public sealed record RamStatus(string Ram, string Activity, SeasonBurst? Last, int Stored, int Pending, DateTimeOffset? NextUtc);
