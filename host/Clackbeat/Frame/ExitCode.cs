namespace Clackbeat.Frame;

/// <summary>How the program ended.</summary>
public static class ExitCode
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>Failed: the machine, a device or the program itself stood in the way.</summary>
    public const int Failed = 1;

    /// <summary>The command line or a file's content is wrong.</summary>
    public const int WrongInput = 2;

    /// <summary>Done, but some input was lost or damaged.</summary>
    public const int DonePartly = 3;

    /// <summary>Done, and the pipe that was judged is near or over what it may bear, or tires before its design life.</summary>
    public const int NotWithin = 4;
}
