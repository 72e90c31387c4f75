using System.Runtime.InteropServices;
using System.Text;
using Clackbeat;
using Clackbeat.Frame;

var utf8 = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
Console.OutputEncoding = utf8;
Console.InputEncoding = utf8;

// A script that asks for the version shouldn't wait for every command's library to load.
if (ProgramVersion.IsAllThatIsAsked(args))
{
    Console.Out.WriteLine(ProgramVersion.WithCommit);
    return ExitCode.Done;
}

using var stop = new CancellationTokenSource();

// The first Ctrl-C lets a command put its files in order; the second ends the program as it stands.
void AskToStop(PosixSignalContext signal)
{
    signal.Cancel = !stop.IsCancellationRequested;
    stop.Cancel();
}

using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, AskToStop);
using var terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, AskToStop);

return App.Run(args, Session.OnConsole(stop.Token));
