namespace Clackbeat.Signal.Flow;

/// <summary>
/// Head over the open waste valve for a velocity in the drive pipe. At its stop a valve obeys h = k v|v|. A plug on a soft spring or a
/// flap has no stop: its gap shrinks evenly as the head over it grows, to 1 − c h of the gap at rest, so h (1 − c h)² = k v|v|. The
/// velocity such a valve lets through has a greatest value at c h = 1/3, where the valve snaps shut.
/// </summary>
/// <param name="Constant">k [s²/m].</param>
/// <param name="Floating">c [1/m]; 0 for a valve at its stop.</param>
internal readonly record struct ValveLaw(double Constant, double Floating)
{
    // The part of a valve's travel that the law is followed to: from here to the snap it moves by its own inertia.
    private const double Farthest = 0.28;
    private const int Steps = 6;

    /// <summary>Head over the valve [m], and how it moves with velocity, k and c.</summary>
    public (double HeadM, double PerVelocity, double PerConstant, double PerFloating) At(double velocity)
    {
        double square = velocity * Math.Abs(velocity);
        double head = Constant * square;
        if (!(Floating > 0) || !(head > 0))
        {
            return (head, 2 * Constant * Math.Abs(velocity), square, 2 * head * head);
        }

        double share = Share(Floating * head);
        double slope = 1 / ((1 - share) * (1 - (3 * share)));
        double found = share / Floating;
        return (found, 2 * Constant * velocity * slope, square * slope, 2 * found * found / (1 - (3 * share)));
    }

    /// <summary>The root x of x (1 − x)² = y below the snap, by Newton's steps from below.</summary>
    private static double Share(double y)
    {
        double x = Math.Min(y, Farthest);
        for (int i = 0; i < Steps; i++)
        {
            x = Math.Clamp(x - (((x * (1 - x) * (1 - x)) - y) / ((1 - x) * (1 - (3 * x)))), 0, Farthest);
        }

        return x;
    }
}
