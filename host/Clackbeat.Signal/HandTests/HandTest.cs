using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.HandTests;

/// <summary>A test by hand that tells conditions apart; its steps, cautions and meaning are phrases of the catalogue.</summary>
/// <param name="Code">Code of the test.</param>
/// <param name="Decides">Conditions that it confirms or rules out.</param>
/// <param name="IsRecorded">Whether a recording of it can be read by the program.</param>
public sealed record HandTest(string Code, IReadOnlyList<string> Decides, bool IsRecorded)
{
    // As for "sure": nearer than a factor of three two causes are not told apart.
    private const double Apart = 3;
    private const double LeastToAsk = 0.15;

    /// <summary>All tests, the cheapest first.</summary>
    public static IReadOnlyList<HandTest> All { get; } =
    [
        new("intake", [Conditions.SupplyStarved], false),
        new("level", [Conditions.SupplyStarved], true),
        new("shut", [Conditions.DeliveryValveLeaking, Conditions.WasteValveLeaking], true),

        // A main and a delivery valve that leak leave the bucket short alike, so the valves are tested first.
        new("bucket", [Conditions.DeliveryRestricted, Conditions.DeliveryMainLeaking], true),
        new("stroke", [Conditions.WasteValveSticking, Conditions.DeliveryValveLate], false),
        new("bleed", [Conditions.AirInDrivePipe], false),
        new("vent", [Conditions.AirVesselWaterlogged], false),
    ];

    /// <summary>Its name.</summary>
    public Fact Name => new("tests." + Code + ".name", []);

    /// <summary>What to do, one step a sentence.</summary>
    public Fact Steps => new("tests." + Code + ".steps", []);

    /// <summary>What to take care of.</summary>
    public Fact Caution => new("tests." + Code + ".caution", []);

    /// <summary>What each outcome means.</summary>
    public Fact Meaning => new("tests." + Code + ".meaning", []);

    /// <summary>
    /// The cheapest test that separates the likeliest condition from the next one; null where the first stands clear of the others. A well ram beside a fault
    /// asks for the test of that fault. A leaking delivery valve always asks for its test, since a small leak of the main looks the same.
    /// </summary>
    /// <param name="findings">Most probable first.</param>
    public static HandTest? For(IReadOnlyList<Finding> findings)
    {
        if (findings is [{ Condition: Conditions.DeliveryValveLeaking }, ..])
        {
            return All.First(t => t.Decides.Contains(Conditions.DeliveryValveLeaking));
        }

        if (findings.Count < 2 || findings[1].Probability < LeastToAsk || findings[0].Probability > Apart * findings[1].Probability)
        {
            return null;
        }

        return All.FirstOrDefault(t => t.Separates(findings[0].Condition, findings[1].Condition));
    }

    // The test with both valves shut tells both leaks, and which of the two; every other test answers one question.
    private bool Separates(string one, string other) => Code == "shut"
        ? Decides.Contains(one) || Decides.Contains(other)
        : Decides.Contains(one) != Decides.Contains(other);
}
