using System.Globalization;
using Clackbeat.Season.Overview;
using Clackbeat.Signal.States;
using Clackbeat.Site.Facts;
using Clackbeat.Words;

namespace Clackbeat.Watch.Overview;

/// <summary>What is said of a ram among others, on the page and on the terminal.</summary>
public static class OverviewWords
{
    // Parts of an advice that fit a list of many rams; the rest stands in the report and the guide.
    private static readonly string[] First = ["check", "caution"];

    /// <summary>How many rams need a visit.</summary>
    public static string Headline(IReadOnlyList<RamVisit> visits)
    {
        int urgent = visits.Count(v => v.Urgency != VisitUrgency.None);
        return urgent == 0
            ? Phrases.Say("overview.headline-well", ("rams", visits.Count))
            : Phrases.Say("overview.headline", ("visits", urgent), ("rams", visits.Count));
    }

    /// <summary>How soon somebody should go there.</summary>
    public static string Urgency(RamVisit visit) => visit.Urgency switch
    {
        VisitUrgency.Now => Phrases.Say("overview.urgency-now"),
        VisitUrgency.Soon => Phrases.Say("overview.urgency-soon"),
        _ => Phrases.Say("overview.urgency-none"),
    };

    /// <summary>What it did when it was last heard.</summary>
    public static string State(RamVisit visit) => visit.Summary.Last.State switch
    {
        RamState.Beating => Phrases.Say("overview.beats"),
        RamState.NoSignal => Phrases.Say("overview.no-signal"),
        _ => Phrases.Say("overview.stopped"),
    };

    /// <summary>How long ago it was last heard.</summary>
    public static string Heard(RamVisit visit, DateTimeOffset atUtc) => (atUtc - visit.Summary.Last.AtUtc) switch
    {
        { TotalHours: < 1 } => Phrases.Say("overview.just-now"),
        { TotalDays: < 2 } since => Phrases.Say("overview.ago-hours", ("hours", Math.Floor(since.TotalHours))),
        { } since => Phrases.Say("overview.ago", ("days", Math.Floor(since.TotalDays))),
    };

    /// <summary>Why it needs a visit, the most urgent first. A fault's name is the end of a sentence; how likely it is stands beside it.</summary>
    public static IEnumerable<string> Reasons(RamVisit visit) => visit.Reasons.Select(reason =>
    {
        string words = Catalogue.Current.Say(reason);
        string told = visit.Condition is { } fault && IsNameOf(reason, fault.Code)
            ? Phrases.Say("overview.chance", ("name", words), ("share", fault.Probability))
            : words;
        return char.ToUpper(told[0], CultureInfo.InvariantCulture) + told[1..];
    });

    /// <summary>What to do first: of the advice on a fault, the check and its caution; null for a ram that needs no visit.</summary>
    public static string? ToDo(RamVisit visit)
    {
        if (visit.ToDo is not { } toDo)
        {
            return null;
        }

        string[] first = [.. Catalogue.Current.AdviceParts(toDo.Code[(toDo.Code.IndexOf('.', StringComparison.Ordinal) + 1)..])
            .Where(p => First.Contains(p.Part)).Select(p => p.Text)];
        return first.Length > 0 ? string.Join(' ', first) : Catalogue.Current.Say(toDo);
    }

    private static bool IsNameOf(Fact reason, string condition) => reason == Signal.Diagnosis.ConditionTraits.Name(condition);
}
