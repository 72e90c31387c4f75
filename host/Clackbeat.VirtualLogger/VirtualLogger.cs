using Clackbeat.Logger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.VirtualLogger;

/// <summary>
/// The firmware's own source behind a simulated converter and a line: to a program that opens the port there is no
/// difference from a board.
/// </summary>
public static class VirtualLogger
{
    /// <summary>True where <see cref="Serve"/> can offer a serial port.</summary>
    public static bool CanServe => PseudoTerminal.IsSupported;

    /// <summary>Serves a logger behind a serial port of its own.</summary>
    public static ServedLogger Serve(
        IConverterSource source, VirtualLoggerOptions options, CancellationToken cancellation)
    {
        CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        PseudoTerminal terminal = PseudoTerminal.Open(options.Pace == Pace.RealTime, stop.Token);
        return new ServedLogger(
            terminal.PortPath, null, Run(source, terminal, options, stop.Token), terminal, stop);
    }

    /// <summary>Serves a logger over a line inside this process, for systems without pseudo-terminals.</summary>
    public static ServedLogger Connect(
        IConverterSource source, VirtualLoggerOptions options, CancellationToken cancellation)
    {
        CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        InProcessWire wire = new(stop.Token);
        return new ServedLogger(null, wire.HostStream, Run(source, wire, options, stop.Token), wire, stop);
    }

    /// <summary>Runs a logger on a line until cancelled or cut; each turn is one start of the device.</summary>
    public static Task Run(
        IConverterSource source, IWire wire, VirtualLoggerOptions options, CancellationToken cancellation)
    {
        return Task.Factory.StartNew(
            () => RunDevice(source, wire, options, cancellation),
            CancellationToken.None,
            TaskCreationOptions.LongRunning,
            TaskScheduler.Default);
    }

    private static void RunDevice(
        IConverterSource source, IWire wire, VirtualLoggerOptions options, CancellationToken cancellation)
    {
        VirtualBoard board = new(source, wire, options, cancellation);
        using FolderStorage? card =
            options.CardFolder is null ? null : new FolderStorage(options.CardFolder, options.CardBytes);
        try
        {
            while (!board.IsCut)
            {
                board.PowerUp();
                new LoggerCore(board, options.Settings, card).Run();
                card?.End();
            }
        }
        catch (OperationCanceledException)
        {
            // Asked to stop: the virtual hardware ends whatever the firmware was doing.
        }

        wire.Dispose();
    }
}
