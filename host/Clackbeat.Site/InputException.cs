namespace Clackbeat.Site;

/// <summary>
/// Something the user gave (a command line, a file's content) can't be used. The message says what is wrong,
/// where, and what to do; it is shown as it stands, without a stack trace, and ends the program with code 2.
/// </summary>
public sealed class InputException : Exception
{
    /// <summary>Makes the error from a message fit to be shown.</summary>
    public InputException(string message)
        : base(message)
    {
    }

    /// <summary>Makes the error from a message fit to be shown and what caused it.</summary>
    public InputException(string message, Exception? innerException)
        : base(message, innerException)
    {
    }
}
