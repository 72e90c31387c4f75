namespace Clackbeat.VirtualLogger.Device;

/// <summary>Ends the firmware in the middle of what it does, as a loss of power would.</summary>
internal sealed class PowerLostException() : Exception("the power is gone");
