using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Demand;

/// <summary>People or animals that are to be supplied.</summary>
/// <param name="Item">Who: an item of <see cref="NeedRate"/>.</param>
/// <param name="Number">How many.</param>
public sealed record NeedUse(string Item, double Number)
{
    private const double LitresPerM3 = 1000;

    /// <summary>What was taken for them, with its source.</summary>
    public Fact Fact => Site.Facts.Fact.Of(
        "plan-need-use", ("who", new Fact($"plan-page.use-{Item}", [])), ("number", Number),
        ("each_l_per_day", LitresPerM3 * NeedRate.Of(Item).UsualM3PerDay), ("source", NeedRate.Of(Item).Source));
}
