namespace Clackbeat.Signal.Tests.Flow;

/// <summary>
/// The plain slow twin: a frictional pipe of many reaches by the method of characteristics as in the textbook
/// (Wylie &amp; Streeter 1993, ch. 3), reservoir upstream, stepped at exactly one reach a step. Shares no code with the product.
/// </summary>
internal sealed class SlowPipe
{
    private const double G = 9.80665;
    private readonly double _impedance;
    private readonly double _reachLoss;
    private readonly double _entranceLoss;
    private readonly double _supplyM;
    private double[] _head;
    private double[] _velocity;

    public SlowPipe(double lengthM, double waveSpeed, double supplyM, double entranceLoss, double pipeLoss, int reaches, double velocity)
    {
        StepS = lengthM / waveSpeed / reaches;
        (_impedance, _reachLoss, _entranceLoss, _supplyM) = (waveSpeed / G, pipeLoss / reaches, entranceLoss, supplyM);
        _velocity = [.. Enumerable.Repeat(velocity, reaches + 1)];
        double v2 = velocity * Math.Abs(velocity);
        _head = [.. Enumerable.Range(0, reaches + 1).Select(i => supplyM - ((entranceLoss + (_reachLoss * i)) * v2))];
    }

    public double StepS { get; }

    public double BodyHeadM => _head[^1];

    public double BodyVelocity => _velocity[^1];

    /// <summary>One step; what happens at the body is told by what arrives there: C⁺ = h + B v, and B.</summary>
    public void Step(Func<double, double, (double HeadM, double Velocity)> body)
    {
        int n = _head.Length - 1;
        double[] head = new double[n + 1];
        double[] velocity = new double[n + 1];
        for (int i = 1; i < n; i++)
        {
            (double plus, double minus) = (Plus(i - 1), Minus(i + 1));
            head[i] = 0.5 * (plus + minus);
            velocity[i] = (plus - minus) / (2 * _impedance);
        }

        double down = Minus(1);
        double v = _velocity[0];
        for (int i = 0; i < 30; i++)
        {
            v = (_supplyM - (_entranceLoss * v * Math.Abs(v)) - down) / _impedance;
        }

        (velocity[0], head[0]) = (v, _supplyM - (_entranceLoss * v * Math.Abs(v)));
        (head[n], velocity[n]) = body(Plus(n - 1), _impedance);
        (_head, _velocity) = (head, velocity);
    }

    private double Plus(int i) => _head[i] + (_impedance * _velocity[i]) - (_reachLoss * _velocity[i] * Math.Abs(_velocity[i]));

    private double Minus(int i) => _head[i] - (_impedance * _velocity[i]) + (_reachLoss * _velocity[i] * Math.Abs(_velocity[i]));
}
