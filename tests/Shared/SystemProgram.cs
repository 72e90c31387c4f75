using System.ComponentModel;
using System.Diagnostics;

namespace Clackbeat.Testing;

/// <summary>Programs of the system that a test needs, such as mount(8).</summary>
internal static class SystemProgram
{
    /// <summary>Runs one to its end.</summary>
    /// <returns>Whether it is there and ended with exit code 0.</returns>
    public static bool Run(string program, params string[] arguments)
    {
        try
        {
            using Process run = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
            run.StandardError.ReadToEnd();
            run.WaitForExit();
            return run.ExitCode == 0;
        }
        catch (Win32Exception)
        {
            return false;
        }
    }
}
