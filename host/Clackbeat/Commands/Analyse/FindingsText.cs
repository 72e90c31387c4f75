using Clackbeat.Frame;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>What was found, in plain text: each finding with its odds and reasons; advice for those worth a look.</summary>
internal static class FindingsText
{
    public static void Write(Session session, IReadOnlyList<Finding> findings)
    {
        if (findings.Count == 0)
        {
            return;
        }

        session.Out.WriteLine();
        session.Out.WriteLine(Phrases.Say("screen.what-found"));
        foreach (Finding finding in findings)
        {
            string name = Catalogue.Current.Condition(finding.Condition);
            Layout.Bullets(session, [Phrases.Say("screen.about-100", ("name", name), ("odds", Math.Clamp(Math.Round(20 * finding.Probability) * 5, 5, 95)), ("evidence", string.Join(' ', Catalogue.Current.Say(finding.Evidence))))]);
        }

        Finding[] advised = [.. findings.Where((f, i) => i == 0 || (f.Probability >= FindingRules.LeastWorthChecking && f.Condition != Conditions.Healthy))];
        session.Out.WriteLine();
        session.Out.WriteLine(Phrases.Say("screen.what-look-first"));
        Layout.Bullets(session, [.. advised.Select(f => Catalogue.Current.Say(f.Advice))]);
    }
}
