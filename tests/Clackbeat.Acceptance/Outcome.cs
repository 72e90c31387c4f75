using System.Diagnostics;

namespace Clackbeat.Acceptance;

/// <summary>What a run of the program left: exit code and both streams.</summary>
public sealed record Outcome(int ExitCode, string Out, string Error)
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    /// <summary>Runs the program inside this process.</summary>
    public static Outcome Of(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        int code = App.Run(args, output, error);
        return new Outcome(code, output.ToString(), error.ToString());
    }

    /// <summary>Runs the executable as a shell would.</summary>
    public static Outcome OfProcess(params string[] args)
    {
        var start = new ProcessStartInfo(Repository.Program, args)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(Patience))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"clackbeat {string.Join(' ', args)} took more than {Patience}.");
        }

        return new Outcome(process.ExitCode, output.Result, error.Result);
    }
}
