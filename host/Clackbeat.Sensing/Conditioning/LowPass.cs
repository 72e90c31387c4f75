namespace Clackbeat.Sensing.Conditioning;

/// <summary>A resistor and a capacitor before the converter, first order.</summary>
/// <param name="ResistanceOhm">All resistance between signal and capacitor [Ω].</param>
/// <param name="CapacitanceF">Capacitance to ground [F].</param>
public readonly record struct LowPass(double ResistanceOhm, double CapacitanceF)
{
    /// <summary>Time constant RC [s].</summary>
    public double TimeConstantS => ResistanceOhm * CapacitanceF;

    /// <summary>Corner frequency, where 71 % is left, 1/(2π RC) [Hz].</summary>
    public double CornerHz => 1 / (2 * Math.PI * TimeConstantS);

    /// <summary>Rise from 10 to 90 % of a step, RC ln 9 [s]; 0.35 over the corner.</summary>
    public double RiseS => TimeConstantS * Math.Log(9);

    /// <summary>Share of a swing that is left, 1/√(1 + (f/fc)²).</summary>
    public double GainAt(double frequencyHz) => 1 / Math.Sqrt(1 + Math.Pow(frequencyHz / CornerHz, 2));

    /// <summary>Time after a step until what is missing is no more than a share of it, −RC ln share [s].</summary>
    public double SettlingS(double share) => -TimeConstantS * Math.Log(share);

    /// <summary>
    /// Share of a spike's height that is left, for a half sine of given length: the greatest value of the exact response
    /// of a first-order low pass.
    /// </summary>
    /// <param name="lengthS">Length of the half sine [s].</param>
    public double SpikePassed(double lengthS)
    {
        double omega = Math.PI / lengthS;
        double x = omega * TimeConstantS;
        double best = 0;
        // y(t) = (sin ωt − x cos ωt + x e^(−t/RC)) / (1 + x²) up to the spike's end, falling after it.
        for (int i = 1; i <= 2000; i++)
        {
            double t = lengthS * i / 2000;
            double y = (Math.Sin(omega * t) - (x * Math.Cos(omega * t)) + (x * Math.Exp(-t / TimeConstantS))) / (1 + (x * x));
            best = Math.Max(best, y);
        }

        return best;
    }
}
