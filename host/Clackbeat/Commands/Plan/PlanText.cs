using Clackbeat.Frame;
using Clackbeat.Planning.Plans;
using Clackbeat.Report.Planned;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands.Plan;

/// <summary>A plan as a person reads it on a screen.</summary>
internal static class PlanText
{
    /// <summary>Writes what to buy, what it gives, and why.</summary>
    public static void Write(Session session, RamPlan plan, Units units)
    {
        var screen = new PlanScreen(plan, units);
        foreach (string sentence in screen.Headline)
        {
            Layout.Paragraph(session, sentence);
        }

        session.Out.WriteLine();
        Layout.Pairs(session, screen.Figures);
        foreach (ScreenPart part in screen.Parts)
        {
            session.Out.WriteLine();
            session.Out.WriteLine(part.Title);
            if (part.Heads.Count > 0)
            {
                Layout.Table(session, part.Heads, part.Rows);
            }
            else
            {
                Layout.Bullets(session, part.Sentences);
            }
        }
    }
}
