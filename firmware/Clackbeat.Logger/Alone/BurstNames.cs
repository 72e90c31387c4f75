namespace Clackbeat.Logger.Alone;

/// <summary>Names on the card (SPEC §10): short enough for the oldest file systems, few in a folder.</summary>
public static class BurstNames
{
    /// <summary>Ending of all files.</summary>
    public const string Ending = ".CBF";

    private const int Digits = 8;
    private const uint BurstsInFolder = 100;

    /// <summary>Folder of a burst, such as 00001200 for bursts 1200 to 1299.</summary>
    public static string Folder(uint burst) => Padded(burst / BurstsInFolder * BurstsInFolder);

    /// <summary>File of a burst inside its folder.</summary>
    public static string File(uint burst) => Padded(burst) + Ending;

    /// <summary>One of the two files that remember over sleep, 0 or 1.</summary>
    public static string State(int slot) => (slot == 0 ? "STATE-A" : "STATE-B") + Ending;

    // Written out: the runtime on the device and the desktop's must give the same digits without a culture.
    private static string Padded(uint number)
    {
        char[] digits = new char[Digits];
        for (int i = Digits - 1; i >= 0; i--)
        {
            digits[i] = (char)('0' + (number % 10));
            number /= 10;
        }

        return new string(digits);
    }
}
