using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.DiagnosisStudy.Rams;

/// <summary>
/// A ram of the study: one drawn from the field, by a number that says what it may be used for. The first ten thousand are to train on,
/// the next to check choices on, the last to report on; of each, numbers from five thousand on have the elastic pipe of the textbooks.
/// </summary>
/// <param name="Number">Number of the ram.</param>
/// <param name="Site">The site file of its keeper.</param>
/// <param name="Ram">The ram when it is well.</param>
/// <param name="Sensor">The sensor of its baseline.</param>
public sealed record StudyRam(int Number, RamSite Site, RamParameters Ram, SensorParameters Sensor)
{
    private const int OfASet = 10_000;
    private const int FirstElastic = 5_000;

    // Three in ten thousandths of a second and two hundred reaches: the coarsest that still moves the features by less than two records of one
    // ram differ; the study takes hours otherwise.
    private const double LongestStepS = 3e-4;
    private const int MostReaches = 200;

    // Under a hundred samples a second a beat of most rams is no longer seen.
    private static readonly FieldDomain Real = FieldDomain.Usual with { RatesHz = [100, 200, 500, 1000, 1000, 1000, 2000] };

    /// <summary>Rates of the records that are made of such rams [Hz].</summary>
    public IReadOnlyList<double> RatesHz => DomainOf(Number).RatesHz;

    /// <summary>What a ram may be used for.</summary>
    public static FieldSet SetOf(int number) => (FieldSet)(number / OfASet);

    /// <summary>What a ram, by its number as text, may be used for.</summary>
    public static FieldSet SetOf(string number) => SetOf(int.Parse(number, System.Globalization.CultureInfo.InvariantCulture));

    /// <summary>Whether a ram, by its number as text, has an elastic pipe.</summary>
    public static bool IsElastic(string number) => IsElastic(int.Parse(number, System.Globalization.CultureInfo.InvariantCulture));

    /// <summary>Makes the ram of a number; null when the site can't carry a sound one.</summary>
    public static StudyRam? Make(int number) =>
        FieldRam.Make(SetOf(number), number % OfASet, DomainOf(number)) is { } drawn ? new StudyRam(number, drawn.Site, drawn.Ram, drawn.Sensor) : null;

    /// <summary>A ram stepped as coarsely as all records of the study are, so that thousands of them can be run.</summary>
    public static RamParameters Coarse(RamParameters ram) => ram with { LongestStepS = LongestStepS, MostReaches = MostReaches };

    private static bool IsElastic(int number) => number % OfASet >= FirstElastic;

    private static FieldDomain DomainOf(int number) => IsElastic(number) ? FieldDomain.Elastic : Real;
}
