using System.Globalization;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>What a sign of a well ram is at a site and in a recording, how far it scatters, and what was seen of it at all.</summary>
/// <param name="Centre">At the usual circumstances.</param>
/// <param name="Scale">Its scatter.</param>
/// <param name="Low">Hardly any ram of the study lay lower.</param>
/// <param name="High">Hardly any ram of the study lay higher.</param>
/// <param name="Slopes">How it moves with each circumstance, and with its square.</param>
internal sealed record UsualSign(double Centre, double Scale, double Low, double High, IReadOnlyList<double> Slopes);

/// <summary>
/// From signs to distances: how many usual scatters each lies from what a well ram shows, be it of this site and this kind of
/// recording, or of the same ram before. What is usual moves with the circumstances along a fitted parabola each.
/// </summary>
internal sealed class UsualSigns
{
    private static readonly Circumstance[] All = Enum.GetValues<Circumstance>();

    private readonly IReadOnlyDictionary<Sign, UsualSign> _usual;
    private readonly IReadOnlyList<(double Middle, double Spread)> _circumstances;

    public UsualSigns(IReadOnlyDictionary<Sign, UsualSign> usual, IReadOnlyList<(double Middle, double Spread)> circumstances) =>
        (_usual, _circumstances) = (usual, circumstances);

    /// <summary>Reads the data file of a model.</summary>
    public static UsualSigns Read(string name)
    {
        var circumstances = DiagnosisData.Rows($"{name}-circumstances.csv", row => (Number(row["middle"].ToString()), Number(row["spread"].ToString())));
        var usual = DiagnosisData.Rows($"{name}-usual.csv", row => (
            Enum.Parse<Sign>(row["sign"].ToString()),
            new UsualSign(
                Number(row["centre"].ToString()), Number(row["scale"].ToString()), Number(row["low"].ToString()), Number(row["high"].ToString()),
                [.. row["slopes"].ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Number)])));
        return new UsualSigns(usual.ToDictionary(u => u.Item1, u => u.Item2), circumstances);
    }

    /// <summary>Writes the data files of a model.</summary>
    public void Write(string folder, string name)
    {
        File.WriteAllLines(Path.Combine(folder, $"{name}-circumstances.csv"),
            ["circumstance,middle,spread", .. All.Select((c, i) => $"{c},{Text(_circumstances[i].Middle)},{Text(_circumstances[i].Spread)}")]);
        File.WriteAllLines(Path.Combine(folder, $"{name}-usual.csv"),
        [
            "sign,centre,scale,low,high,slopes",
            .. _usual.Select(u => $"{u.Key},{Text(u.Value.Centre)},{Text(u.Value.Scale)},{Text(u.Value.Low)},{Text(u.Value.High)},{string.Join(' ', u.Value.Slopes.Select(Text))}"),
        ]);
    }

    /// <summary>Terms of the parabolas: each circumstance in its spreads from the middle, and its square.</summary>
    public static double[] Terms(IReadOnlyDictionary<Circumstance, double> circumstances, IReadOnlyList<(double Middle, double Spread)> usual)
    {
        var terms = new double[2 * All.Length];
        for (int i = 0; i < All.Length; i++)
        {
            double x = circumstances.TryGetValue(All[i], out double value) && usual[i].Spread > 0 ? (value - usual[i].Middle) / usual[i].Spread : 0;

            // Beyond what the study held, the parabola is not followed further.
            x = Math.Clamp(x, -2.5, 2.5);
            (terms[2 * i], terms[(2 * i) + 1]) = (x, x * x);
        }

        return terms;
    }

    /// <summary>How far each sign lies from what is usual, in usual scatters.</summary>
    public Dictionary<Sign, double> Distances(IReadOnlyDictionary<Sign, double> signs, IReadOnlyDictionary<Circumstance, double> circumstances)
    {
        double[] terms = Terms(circumstances, _circumstances);
        var distances = new Dictionary<Sign, double>();
        foreach ((Sign sign, double value) in signs)
        {
            if (_usual.TryGetValue(sign, out UsualSign? usual))
            {
                distances[sign] = (value - usual.Centre - usual.Slopes.Zip(terms, (s, t) => s * t).Sum()) / usual.Scale;
            }
        }

        return distances;
    }

    /// <summary>A distance in the sign's own unit.</summary>
    public double Change(Sign sign, double distance) => distance * _usual[sign].Scale;

    /// <summary>Share of the signs that lie outside nearly everything the model was made from.</summary>
    public double Strangeness(IReadOnlyDictionary<Sign, double> signs) => signs.Count == 0 ? 1
        : signs.Count(s => _usual.TryGetValue(s.Key, out UsualSign? usual) && (s.Value < usual.Low || s.Value > usual.High)) / (double)signs.Count;

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Text(double value) => value.ToString("G5", CultureInfo.InvariantCulture);
}
