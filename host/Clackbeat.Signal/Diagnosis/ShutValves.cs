namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// Features from the short time after the delivery in which both valves are shut. What still flows at the body then runs through a
/// leak or an unseated valve, or fills the body as its pressure changes: v = v₀ − give · dp/dt, a line fitted through the fall. What is
/// left of the column's velocity just before it says how the last wave came to turn it.
/// </summary>
/// <param name="timeS">Times of the typical beat [s].</param>
/// <param name="share">Its pressure over the open level at rest, of the jump.</param>
/// <param name="velocity">Velocity at the body over the closing velocity.</param>
/// <param name="periodS">Pipe period, measured where it could be [s].</param>
internal sealed class ShutValves(double[] timeS, double[] share, double[] velocity, double periodS)
{
    // Above, the delivery valve may still stand open; below, the waste valve may open already.
    private const double Plateau = 0.9;
    private const double Upper = 0.88;
    private const double Lower = 0.1;
    private const double Foot = 0.08;

    // The foot of a fall lies within two waves, and a fall begins within one.
    private const double LongestFall = 2;

    // Just before the fall, in pipe periods.
    private const double Before = 0.15;
    private const int LeastSamples = 5;

    // Falls slower than half a jump in a period tell too little of the give to take it from them.
    private const double Ridge = 0.3;

    /// <summary>The features that the fall allows.</summary>
    /// <param name="endS">Fall through half the jump [s].</param>
    public IEnumerable<(Feature Feature, double Value)> Measure(double endS)
    {
        int end = Array.FindIndex(timeS, t => t >= endS);
        if (end < 2)
        {
            yield break;
        }

        int top = end;
        while (top > 1 && share[top] < Plateau && timeS[top] > endS - periodS)
        {
            top--;
        }

        yield return (Feature.LastVelocity, MeanBefore(top));

        int foot = end;
        while (foot < timeS.Length - 2 && share[foot] > Foot && timeS[foot] < endS + (LongestFall * periodS))
        {
            foot++;
        }

        if (Line(top, foot) is { } line)
        {
            yield return (Feature.ShutFlow, line.Flow);
            yield return (Feature.BodyGive, line.Give);
        }
    }

    private double MeanBefore(int top)
    {
        (double sum, int count) = (0, 0);
        for (int i = top; i > 0 && timeS[i] > timeS[top] - (Before * periodS); i--)
        {
            sum += velocity[i];
            count++;
        }

        return sum / count;
    }

    private (double Flow, double Give)? Line(int top, int foot)
    {
        (double x, double y, double xx, double xy, int count) = (0, 0, 0, 0, 0);
        for (int i = top; i <= foot; i++)
        {
            if (share[i] is > Upper or < Lower)
            {
                continue;
            }

            double fall = -(share[i + 1] - share[i - 1]) / (timeS[i + 1] - timeS[i - 1]) * periodS;
            (x, y, xx, xy, count) = (x + fall, y + velocity[i], xx + (fall * fall), xy + (fall * velocity[i]), count + 1);
        }

        if (count < LeastSamples)
        {
            return null;
        }

        // Water runs out of the pressed body as the pressure falls, never into it.
        double give = Math.Max(0, -(xy - (x * y / count)) / (xx - (x * x / count) + (Ridge * count)));
        return ((y + (give * x)) / count, give);
    }
}
