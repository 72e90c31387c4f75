namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// A cause that happens in the field and that no model of the beat names: a finding may show it, or one tap can't tell. What it looks like,
/// how sure one may be, and what to do are phrases of the catalogue.
/// </summary>
/// <param name="Code">Code of the cause.</param>
/// <param name="Caution">Which caution goes with looking after it, as of <see cref="Conditions.CautionOf"/>.</param>
/// <param name="Simulated">Code under which the virtual ram has it; null where it can't draw it.</param>
/// <param name="Where">The part of the beat that shows it, if any does.</param>
public sealed record FurtherCause(string Code, string Caution, string? Simulated = null, BeatPart Where = BeatPart.Level)
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<FurtherCause> All { get; } =
    [
        new("lock-nut", "valve", "lock-nut-slips", BeatPart.Rhythm),
        new("outlet-drowned", "valve", "outlet-drowned", BeatPart.Open),
        new("two-rams", "vessel", "second-ram", BeatPart.Rhythm),
        new("drive-pipe-silted", "intake", "drive-pipe-silted", BeatPart.Open),
        new("snifter", "vessel", "snifter-too-large", BeatPart.Recoil),
        new("main-frozen", "main"),
        new("drive-pipe-leak", "valve"),
        new("drive-pipe-air-lock", "valve"),
        new("foundation", "valve"),
    ];
}
