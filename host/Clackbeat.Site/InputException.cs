using Clackbeat.Site.Facts;

namespace Clackbeat.Site;

/// <summary>
/// Something the user gave (a command line, a file's content) can't be used. Its fact says what is wrong, where, and what to do; its
/// sentence is shown in the user's language, without a stack trace, and ends the program with code 2.
/// </summary>
public sealed class InputException : Exception, ITelling
{
    /// <summary>Makes the error from a message that is in English only as yet.</summary>
    public InputException(string message, Exception? innerException = null)
        : this(Fact.Of("plain", ("what", message)), innerException)
    {
    }

    /// <summary>Makes the error from what is to be told.</summary>
    public InputException(Fact what, Exception? innerException = null)
        : base(null, innerException) => What = what;

    /// <inheritdoc/>
    public Fact What { get; }

    /// <inheritdoc/>
    public override string Message => ExceptionText.Say(What);

    /// <summary>An error.</summary>
    /// <param name="code">Code of its sentence, written out at the call, so that a test finds it.</param>
    /// <param name="values">Names and values.</param>
    public static InputException Of(string code, params FactValue[] values) => new(new Fact(code, values));

    /// <summary>An error that another one caused.</summary>
    /// <param name="cause">The other one.</param>
    /// <param name="code">Code of its sentence, written out at the call, so that a test finds it.</param>
    /// <param name="values">Names and values.</param>
    public static InputException Of(Exception cause, string code, params FactValue[] values) => new(new Fact(code, values), cause);
}
