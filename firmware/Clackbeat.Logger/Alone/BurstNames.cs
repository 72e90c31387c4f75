namespace Clackbeat.Logger.Alone;

/// <summary>Names on the card (SPEC §10): short enough for the oldest file systems, few in a folder.</summary>
public static class BurstNames
{
    /// <summary>Ending of all files.</summary>
    public const string Ending = ".CBF";

    /// <summary>How many bursts one folder takes.</summary>
    public const uint BurstsInFolder = 100;

    private const int Digits = 8;

    /// <summary>Folder of a burst, such as 00001200 for bursts 1200 to 1299.</summary>
    public static string Folder(uint burst) => Padded(burst / BurstsInFolder * BurstsInFolder);

    /// <summary>File of a burst inside its folder.</summary>
    public static string File(uint burst) => Padded(burst) + Ending;

    /// <summary>Number of the file that keeps what the board's bench found.</summary>
    public const int BenchSlot = 2;

    /// <summary>Number of the file that keeps how long and how often to record.</summary>
    public const int ScheduleSlot = 3;

    /// <summary>One of the two files that remember over sleep, 0 or 1, the bench's, or the schedule's.</summary>
    public static string State(int slot) =>
        (slot == 0 ? "STATE-A" : slot == 1 ? "STATE-B" : slot == BenchSlot ? "BENCH" : "SCHEDULE") + Ending;

    /// <summary>Burst number of a file's name or path, whose ending may be in small letters; 0 for any other name.</summary>
    public static uint NumberOf(string path)
    {
        int start = path.Length - Digits - Ending.Length;
        if (start < 0)
        {
            return 0;
        }

        for (int i = 0; i < Ending.Length; i++)
        {
            char c = path[start + Digits + i];
            if (c != Ending[i] && c - 'a' + 'A' != Ending[i])
            {
                return 0;
            }
        }

        uint number = 0;
        for (int i = start; i < start + Digits; i++)
        {
            if (path[i] < '0' || path[i] > '9')
            {
                return 0;
            }

            number = (number * 10) + (uint)(path[i] - '0');
        }

        return number;
    }

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
