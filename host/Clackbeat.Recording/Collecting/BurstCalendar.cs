using Clackbeat.Protocol;

namespace Clackbeat.Recording.Collecting;

/// <summary>A burst whose time on the calendar is sought.</summary>
/// <param name="Facts">What it says of itself.</param>
/// <param name="NotAfter">It had ended by then: it was collected.</param>
public sealed record DatedBurst(BurstFacts Facts, DateTimeOffset NotAfter);

/// <summary>A time that somebody knows: when a logger was switched on.</summary>
/// <param name="Device">The logger.</param>
/// <param name="Burst">The burst that followed.</param>
/// <param name="Utc">When it was switched on.</param>
/// <param name="UncertaintyS">How far that may be off, either way [s].</param>
public sealed record KnownTime(string Device, uint Burst, DateTimeOffset Utc, double UncertaintyS);

/// <summary>When a burst began: between two instants, either of which may be unknown.</summary>
/// <param name="NotBefore">It did not begin before [s since 1970-01-01 UTC]; −∞ unknown.</param>
/// <param name="NotAfter">It did not begin after [s since 1970-01-01 UTC].</param>
public readonly record struct BurstTime(double NotBefore, double NotAfter)
{
    /// <summary>The middle [s since 1970-01-01 UTC]; null when one side is open.</summary>
    public double? MiddleS => double.IsFinite(NotBefore) && double.IsFinite(NotAfter) ? 0.5 * (NotBefore + NotAfter) : null;

    /// <summary>Half the width [s]: the truth lies within it, either way.</summary>
    public double? UncertaintyS => MiddleS is null ? null : 0.5 * (NotAfter - NotBefore);
}

/// <summary>
/// Puts a lone logger's bursts on the calendar. Between two bursts lie the time the first was awake, by the crystal, and
/// the sleep asked for, by a sleep clock that may be off by so much; where the logger lost its power, any time may lie.
/// Known times bound the bursts next to them, and through these chains all others; the bounds are the tightest that the
/// facts allow (two passes over a chain of difference constraints: Dechter, Meiri and Pearl 1991,
/// doi 10.1016/0004-3702(91)90006-6). No drift is guessed: what is stated is where the truth must lie.
/// </summary>
public static class BurstCalendar
{
    /// <summary>
    /// How far a sleep may be off, as a share of it. Reported of the chip's RC clock: 20 minutes in 15 hours, 2.2 %
    /// (espressif/arduino-esp32, thread 7084); the protocol's page says two per cent.
    /// </summary>
    public const double SleepShare = 0.025;

    // From the wake to the start of the device's clock, and from the end of a burst to sleep: the card is closed, the
    // runtime loads. Some tenths of a second to a second each, by other runtimes on the chip.
    private const double MostUncountedS = 4;

    // Both clocks of a burst's start and its calendar mark tick in milliseconds.
    private const double LeastUncertaintyS = 0.001;

    /// <summary>Bounds for each burst of one logger, in the order of their numbers.</summary>
    /// <param name="bursts">Bursts of one logger in the order of their numbers.</param>
    /// <param name="known">Times that somebody knows.</param>
    /// <param name="contradicted">True when they can't all be right; the bounds then leave the known times out.</param>
    public static IReadOnlyList<BurstTime> Place(
        IReadOnlyList<DatedBurst> bursts, IReadOnlyCollection<KnownTime> known, out bool contradicted)
    {
        BurstTime[] times = Propagate(bursts, known);
        contradicted = times.Any(t => t.NotBefore > t.NotAfter);
        if (contradicted)
        {
            times = Propagate(bursts, []);
            contradicted = known.Count > 0;
        }

        return times;
    }

    private static BurstTime[] Propagate(IReadOnlyList<DatedBurst> bursts, IReadOnlyCollection<KnownTime> known)
    {
        BurstTime[] times = [.. bursts.Select(b => Own(b, known))];
        for (int i = 1; i < times.Length; i++)
        {
            (double least, double most) = Between(bursts[i - 1].Facts, bursts[i].Facts);
            times[i] = Meet(times[i], times[i - 1].NotBefore + least, times[i - 1].NotAfter + most);
        }

        for (int i = times.Length - 2; i >= 0; i--)
        {
            (double least, double most) = Between(bursts[i].Facts, bursts[i + 1].Facts);
            times[i] = Meet(times[i], times[i + 1].NotBefore - most, times[i + 1].NotAfter - least);
        }

        return times;
    }

    // What a burst's own facts and the known times say of it.
    private static BurstTime Own(DatedBurst burst, IReadOnlyCollection<KnownTime> known)
    {
        BurstFacts facts = burst.Facts;
        double awakeS = Seconds(facts.EndMicroseconds - facts.StartMicroseconds);
        BurstTime time = new(double.NegativeInfinity, Seconds(burst.NotAfter) - awakeS);
        if (facts.Calendar is { } mark)
        {
            double atS = Seconds(mark.UtcMicroseconds - mark.DeviceMicroseconds + facts.StartMicroseconds);
            double uS = Math.Max(LeastUncertaintyS, Seconds(mark.UncertaintyMicroseconds));
            time = Meet(time, atS - uS, atS + uS);
        }

        foreach (KnownTime on in known.Where(k => k.Device == facts.Header.Device && k.Burst == facts.Number))
        {
            double startS = Seconds(on.Utc) + Seconds(facts.StartMicroseconds);
            time = Meet(time, startS - on.UncertaintyS, startS + on.UncertaintyS + MostUncountedS);
        }

        return time;
    }

    /// <summary>Least and most time from the start of one burst to the start of the next [s].</summary>
    private static (double Least, double Most) Between(BurstFacts one, BurstFacts next)
    {
        if (next.Boot == one.Boot && next.StartMicroseconds >= one.StartMicroseconds)
        {
            double exact = Seconds(next.StartMicroseconds - one.StartMicroseconds);
            return (exact, exact);
        }

        double awakeS = Seconds(one.EndMicroseconds - one.StartMicroseconds) + Seconds(next.StartMicroseconds);
        bool slept = next.Boot == one.Boot + 1 && next.Wake == WakeCauses.Timer && next.SleptS > 0;
        return slept
            ? (awakeS + (next.SleptS * (1 - SleepShare)), awakeS + (next.SleptS * (1 + SleepShare)) + MostUncountedS)
            : (awakeS, double.PositiveInfinity);
    }

    private static BurstTime Meet(BurstTime time, double notBefore, double notAfter) =>
        new(Math.Max(time.NotBefore, notBefore), Math.Min(time.NotAfter, notAfter));

    private static double Seconds(long microseconds) => microseconds / 1e6;

    private static double Seconds(DateTimeOffset time) => (time - DateTimeOffset.UnixEpoch).TotalSeconds;
}
