using Clackbeat.Words;

namespace Clackbeat.Commands.Check;

/// <summary>The live page's own words for the phases of a test.</summary>
internal static class CheckPhrases
{
    /// <summary>What goes on now.</summary>
    public static string Now(string phase) => phase switch
    {
        "hold" => Phrases.Say("page.hand.hold"),
        "gate" => Phrases.Say("page.hand.gate"),
        "release" => Phrases.Say("page.hand.release"),
        "do" => Phrases.Say("page.hand.do"),
        "bucket" => Phrases.Say("page.hand.bucket"),
        _ => Phrases.Say("page.hand.record"),
    };

    /// <summary>What to do once it has lasted long enough.</summary>
    public static string Ready(string phase) => phase switch
    {
        "hold" => Phrases.Say("page.hand.ready.hold"),
        "gate" => Phrases.Say("page.hand.ready.gate"),
        "do" => Phrases.Say("page.hand.next.do"),
        _ => Phrases.Say("page.hand.ready.record"),
    };
}
