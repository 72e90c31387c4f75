using Clackbeat.Logger.Alone;
using Clackbeat.Logger.Running;
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
        var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        var terminal = PseudoTerminal.Open(options.Pace == Pace.RealTime, stop.Token);
        return new ServedLogger(
            terminal.PortPath, null, Run(source, terminal, options, stop.Token), terminal, stop);
    }

    /// <summary>Serves a logger over a line inside this process, for systems without pseudo-terminals.</summary>
    public static ServedLogger Connect(
        IConverterSource source, VirtualLoggerOptions options, CancellationToken cancellation)
    {
        var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
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

    /// <summary>
    /// Leaves a logger alone for a time, as fast as this machine computes it; at its end the power goes, whatever the
    /// logger is doing.
    /// </summary>
    /// <param name="source">What the converter sees.</param>
    /// <param name="options">The logger; its settings say how it works alone, its pace is not looked at.</param>
    /// <param name="lengthS">How long in the logger's world [s].</param>
    /// <param name="card">The card in its slot; null for the folder that the options name.</param>
    /// <param name="cancellation">Ends it early.</param>
    public static void RunAlone(
        IConverterSource source,
        VirtualLoggerOptions options,
        double lengthS,
        FolderCard? card = null,
        CancellationToken cancellation = default)
    {
        VirtualLoggerOptions alone = options with { Pace = Pace.AsFastAsRead };
        using SilentWire nobody = new();
        VirtualBoard board = new(source, nobody, alone, cancellation) { EndUs = lengthS * 1e6 };
        RunDevice(board, alone, card);
    }

    private static void RunDevice(
        IConverterSource source, IWire wire, VirtualLoggerOptions options, CancellationToken cancellation)
    {
        try
        {
            RunDevice(new VirtualBoard(source, wire, options, cancellation), options, options.Card);
        }
        catch (OperationCanceledException)
        {
            // Asked to stop: the virtual hardware ends whatever the firmware was doing.
        }

        wire.Dispose();
    }

    private static void RunDevice(VirtualBoard board, VirtualLoggerOptions options, FolderCard? inserted)
    {
        using FolderCard? own = inserted is null && options.CardFolder is { } folder
            ? new FolderCard(folder, options.CardBytes)
            : null;
        FolderCard? card = inserted ?? own;
        card?.PutInto(board, options.Charges);
        while (!board.IsCut)
        {
            board.PowerUp();
            new LoggerCore(board, options.Settings, card is null ? null : new BurstFiles(card)).Run();
            if (board.IsOff)
            {
                card?.LosePower();
            }

            card?.Reset();
        }
    }
}
