using System.Text.RegularExpressions;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.VirtualRam.Remedies;

namespace Clackbeat.VirtualRam.Tests.Advice;

/// <summary>A sentence somewhere in the product that speaks of changing the waste valve.</summary>
internal sealed record AdviceSentence(string Where, string Text)
{
    // Which words name which change, English and Spanish. Advice in words of another kind fails the test until they stand here.
    private static readonly (string Pattern, ValveChange Change)[] Changes =
    [
        (@"shorten(ing)? the stroke|shorter stroke|acorte la carrera|carrera más corta", ValveChange.ShorterStroke),
        (@"lengthen(ing)? the stroke|longer stroke|alargue la carrera|carrera más larga", ValveChange.LongerStroke),
        (@"(take|with) (some )?weight (off|taken off)|less weight|lighter (waste )?valve|lighten|quite peso|menos peso", ValveChange.LessWeight),
        (@"add(ing)? (some )?weight|more weight|heavier|agregue peso|más peso", ValveChange.MoreWeight),
        (@"weaker spring|softer spring|resorte más blando", ValveChange.WeakerSpring),
        (@"stiffer spring|stronger spring|resorte más duro", ValveChange.StifferSpring),
    ];

    // What such a sentence may promise. "The stream is low" asks for a ram that takes less, said or not.
    private static readonly (string Pattern, string Quantity, bool Rises)[] Effects =
    [
        (@"takes? less|tome menos|stream( itself)? is low|arroyo .*viene bajo", "drawn", false),
        (@"takes? more", "drawn", true),
        (@"lifts more", "delivered-a-beat", true),
        (@"delivers less", "delivered", false),
        (@"wastes more", "waste-a-beat", true),
        (@"hits? harder|golpean? más fuerte", "peak", true),
        (@"lowers the peak", "peak", false),
        (@"at a slower flow", "waste-a-beat", false),
    ];

    // These leave open what comes of it.
    private static readonly Regex Open = new("may (or may not|do so|fall)|también puede", RegexOptions.CultureInvariant);

    private static readonly Regex Ends = new(@"(?<=[.!?])\s+|\n\s*\n|(?<=\|)\s", RegexOptions.CultureInvariant);

    internal IReadOnlyList<ValveChange> Named => [.. Changes.Where(c => Has(c.Pattern)).Select(c => c.Change)];

    internal bool LeavesOpen => Open.IsMatch(Text);

    internal IReadOnlyList<AdvicePromise> Promises =>
        [.. from change in Named
            from effect in Effects.Where(e => Has(e.Pattern))
            select new AdvicePromise(change.Code(), effect.Quantity, effect.Rises)];

    /// <summary>The sentences of a text that name a change.</summary>
    internal static IEnumerable<AdviceSentence> In(string where, string text) =>
        Ends.Split(text).Select(s => new AdviceSentence(where, s.ReplaceLineEndings(" ").Trim())).Where(s => s.Named.Count > 0);

    public override string ToString() => $"{Where}: \"{Text}\"";

    private bool Has(string pattern) => Regex.IsMatch(Text, pattern, RegexOptions.IgnoreCase | RegexOptions.CultureInvariant);
}
