using Clackbeat.Site.Quantities;

namespace Clackbeat.Report.Upkeep;

/// <summary>What a logbook sheet tells; the sheet itself knows no store.</summary>
/// <param name="RamName">The ram.</param>
/// <param name="Units">Units a page begins with.</param>
/// <param name="Checks">The checks, the most pressing first.</param>
/// <param name="LowStream">The setting that gave most at low stream; null for unknown.</param>
/// <param name="HighStream">The same at high stream.</param>
/// <param name="Marks">What was done lately, the latest first.</param>
public sealed record UpkeepSheet(
    string RamName, Units Units, IReadOnlyList<UpkeepCheck> Checks, string? LowStream, string? HighStream, IReadOnlyList<(DateOnly Day, string Words)> Marks);

/// <summary>A check in words.</summary>
/// <param name="Task">What is checked.</param>
/// <param name="Every">How often.</param>
/// <param name="Since">What has gone by.</param>
/// <param name="Standing">Whether it is due, and why.</param>
/// <param name="IsDue">It is.</param>
public sealed record UpkeepCheck(string Task, string Every, string Since, string Standing, bool IsDue);
