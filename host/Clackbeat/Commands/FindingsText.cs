using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.Commands;

/// <summary>What was found, in plain text: each finding with its odds and reasons; advice for those worth a look.</summary>
internal static class FindingsText
{
    // Below this a finding can't be ruled out, but is no reason to open a valve.
    private const double WorthALook = 0.25;

    public static void Write(Session session, IReadOnlyList<Finding> findings)
    {
        if (findings.Count == 0)
        {
            return;
        }

        session.Out.WriteLine();
        session.Out.WriteLine("What was found");
        foreach (Finding finding in findings)
        {
            string name = ConditionText.Of(finding.Condition).Name;
            Layout.Bullets(session, [string.Create(
                CultureInfo.InvariantCulture, $"{name}: about {Math.Clamp(Math.Round(20 * finding.Probability) * 5, 5, 95):0} in 100. {string.Join(' ', finding.Evidence)}")]);
        }

        Finding[] advised = [.. findings.Where((f, i) => i == 0 || (f.Probability >= WorthALook && f.Condition != Conditions.Healthy))];
        session.Out.WriteLine();
        session.Out.WriteLine("What to look at first");
        Layout.Bullets(session, [.. advised.Select(f => f.Advice)]);
    }
}
