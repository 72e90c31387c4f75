namespace Clackbeat.Watch.Live;

/// <summary>The samples figures are made from.</summary>
/// <param name="State">What the ram was doing at the last of them.</param>
/// <param name="BeganS">When the window was begun anew last [s].</param>
/// <param name="TimesS">Times [s].</param>
/// <param name="PressuresPa">Gauge pressures [Pa].</param>
internal sealed record LiveWindow(LiveState State, double BeganS, double[] TimesS, double[] PressuresPa)
{
    public double SpanS => TimesS.Length > 0 ? TimesS[^1] - TimesS[0] : 0;

    /// <summary>The same at not much more than so many samples a second, each the mean of its neighbours.</summary>
    public LiveWindow Thinned(double rateHz)
    {
        int few = SpanS > 0 ? (int)(TimesS.Length / SpanS / rateHz) : 1;
        return few < 2 ? this : this with { TimesS = Means(TimesS, few), PressuresPa = Means(PressuresPa, few) };
    }

    private static double[] Means(double[] values, int few)
    {
        double[] means = new double[values.Length / few];
        for (int i = 0; i < means.Length; i++)
        {
            double sum = 0;
            for (int j = 0; j < few; j++)
            {
                sum += values[(i * few) + j];
            }

            means[i] = sum / few;
        }

        return means;
    }
}
