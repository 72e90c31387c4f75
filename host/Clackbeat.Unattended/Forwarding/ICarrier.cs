namespace Clackbeat.Unattended.Forwarding;

/// <summary>A way by which packets reach the computer that gathers them.</summary>
public interface ICarrier
{
    /// <summary>Whom it speaks to, for messages.</summary>
    string Receiver { get; }

    /// <summary>Returns when the receiver has stored the packet, or refused it for good.</summary>
    /// <param name="packet">The packet.</param>
    /// <param name="cancellation">Ends the try.</param>
    /// <returns>Null once it is stored; else why the receiver will never take it.</returns>
    /// <exception cref="Delivery.DeliveryException">It isn't, for a reason that may pass.</exception>
    Task<string?> Send(byte[] packet, CancellationToken cancellation);
}
