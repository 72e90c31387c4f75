using Clackbeat.Unattended.Surroundings;

namespace Clackbeat.Unattended.Live;

/// <summary>What is told of one ram, each trouble once until it is over.</summary>
internal sealed class RamNews(string ram, IRamListener listener)
{
    private readonly Dictionary<string, string> _troubles = [];

    /// <summary>Tells something that happened.</summary>
    public void Tell(string words, bool isTrouble) => listener.Tell(new LogNews(ram, words, isTrouble));

    /// <summary>Tells of a trouble that lasts, unless the same was told already.</summary>
    /// <param name="kind">What kind it is; one of a kind lasts at a time.</param>
    /// <param name="words">What is wrong and what to do.</param>
    public void Trouble(string kind, string words)
    {
        if (!_troubles.TryGetValue(kind, out string? told) || told != words)
        {
            _troubles[kind] = words;
            Tell(words, isTrouble: true);
        }
    }

    /// <summary>Tells that a trouble is over, if there was one.</summary>
    public void Over(string kind, string words)
    {
        if (_troubles.Remove(kind))
        {
            Tell(words, isTrouble: false);
        }
    }
}
