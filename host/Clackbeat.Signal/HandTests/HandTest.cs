using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.HandTests;

/// <summary>A part of a test during which nothing changes at the ram.</summary>
/// <param name="Code">Its code: what hands do meanwhile.</param>
/// <param name="LeastS">How long it lasts at least [s]; 0 where it is over when the keeper says so.</param>
/// <param name="IsRecorded">Its samples belong to the test.</param>
public sealed record HandPhase(string Code, double LeastS, bool IsRecorded = true);

/// <summary>A test by hand that tells conditions apart; its steps, cautions and meaning are phrases of the catalogue.</summary>
/// <param name="Code">Code of the test.</param>
/// <param name="Phases">Its parts in order.</param>
public sealed record HandTest(string Code, IReadOnlyList<HandPhase> Phases)
{
    // Somewhat longer than the reading needs: a hand is late.
    private static readonly HandPhase Hold = new("hold", 10);
    private static readonly HandPhase[] Again = [new("do", 0, IsRecorded: false), new("record", 60)];

    /// <summary>Code of the test with gate and waste valve shut.</summary>
    public const string Shut = "shut";

    /// <summary>Code of the test of the static level.</summary>
    public const string Level = "level";

    /// <summary>Code of the test with a bucket at the outlet.</summary>
    public const string Bucket = "bucket";

    /// <summary>All tests, the cheapest first.</summary>
    public static IReadOnlyList<HandTest> All { get; } =
    [
        new("intake", Again),
        new(Level, [Hold]),
        new(Shut, [Hold, new("gate", 30), new("release", 7)]),

        // A main and a delivery valve that leak leave the bucket short alike, so the valves are tested first.
        new(Bucket, [new("record", 60), new("bucket", 0, IsRecorded: false)]),
        new("stroke", Again),
        new("bleed", Again),
        new("vent", Again),
    ];

    /// <summary>What is read is a record made once something was done at the ram, held against the one before.</summary>
    public bool IsRepeat => Phases == (IReadOnlyList<HandPhase>)Again;

    /// <summary>Its name.</summary>
    public Fact Name => new("tests." + Code + ".name", []);

    /// <summary>What to do, one step a sentence.</summary>
    public Fact Steps => new("tests." + Code + ".steps", []);

    /// <summary>What to take care of.</summary>
    public Fact Caution => new("tests." + Code + ".caution", []);

    /// <summary>What each outcome means.</summary>
    public Fact Meaning => new("tests." + Code + ".meaning", []);

    /// <summary>The test of a code; null for none.</summary>
    public static HandTest? Of(string code) => All.FirstOrDefault(t => t.Code == code);
}
