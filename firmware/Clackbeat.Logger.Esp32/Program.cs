using System;
using System.IO.Ports;
using Clackbeat.Logger.Alone;
using Clackbeat.Logger.Board;
using Clackbeat.Logger.Reporting;
using Clackbeat.Logger.Running;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using nanoFramework.Hardware.Esp32;

namespace Clackbeat.Logger.Esp32;

/// <summary>Where the device begins.</summary>
public static class Program
{
    private const int ReceiveRoom = 256;

    /// <summary>
    /// Opens the line first, so that whatever fails afterwards is told on it, then lets the logger work. The runtime
    /// says nothing of an exception that nobody catches.
    /// </summary>
    public static void Main()
    {
        SerialPort? line = null;
        Esp32Board? board = null;
        LoggerSettings settings = Wiring.Settings();
        IBurstStorage? storage = Wiring.HasCard ? new BurstFiles(new SdCard()) : null;
        while (true)
        {
            try
            {
                line ??= OpenLine();
                board ??= new Esp32Board(line, settings.ChannelMask);
                new LoggerCore(board, settings, storage).Run();
            }
            catch (Exception e)
            {
                Tell(line, e);
                Esp32Board.RestartDevice();
            }
        }
    }

    private static SerialPort OpenLine()
    {
        // Pins before the port: opening it takes what they are set to.
        Configuration.SetPinFunction(Wiring.LineTransmitPin, DeviceFunction.COM2_TX);
        Configuration.SetPinFunction(Wiring.LineReceivePin, DeviceFunction.COM2_RX);
        SerialPort line = new(Wiring.LinePort, Wiring.LineBaud) { ReadBufferSize = ReceiveRoom };
        line.Open();
        return line;
    }

    private static void Tell(SerialPort? line, Exception exception)
    {
        try
        {
            string words = exception.Message ?? "an exception without words";
            FrameWriter frame = FaultFrame.Make(FaultCodes.Exception, (long)HighResTimer.GetCurrent(), words);
            line?.Write(frame.Buffer, 0, frame.Length);
        }
        catch (Exception)
        {
            // Nothing is left to tell it with; the device starts anew.
        }
    }
}
