using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;

namespace Clackbeat.Twin.Air;

/// <summary>How far the head in the body rises while the delivery valve is open.</summary>
public static class PlateauRise
{
    // Ringing stands at the start, the fall at the end.
    private const double From = 0.2;
    private const double To = 0.85;

    // A plateau may ring below half its head soon after the knock; its end is the last fall, not far from where the record's lies.
    private const double Latest = 1.3;

    /// <summary>The rise over the delivery, as a share of the plateau's head: the slope over its middle, by least squares.</summary>
    /// <param name="head">A beat, time 0 where the knock is half way up.</param>
    /// <param name="measured">The record's beat, for the head and the usual end of its plateau.</param>
    public static double Of(HeadCurve head, MeasuredCycle measured)
    {
        ArgumentNullException.ThrowIfNull(head);
        ArgumentNullException.ThrowIfNull(measured);
        double plateauM = measured.PlateauM;
        double end = Latest * measured.DeliveryEndS;
        while (end > head.StepS && head.At(end) < 0.5 * plateauM)
        {
            end -= head.StepS;
        }

        double middle = 0.5 * (From + To) * end;
        double covariance = 0;
        double variance = 0;
        for (double t = From * end; t <= To * end; t += head.StepS)
        {
            covariance += (t - middle) * head.At(t);
            variance += (t - middle) * (t - middle);
        }

        return variance > 0 ? covariance / variance * end / plateauM : 0;
    }
}
