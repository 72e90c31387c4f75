using Clackbeat.Unattended.Settings;
using MQTTnet;
using MQTTnet.Formatter;

namespace Clackbeat.Unattended.Forwarding;

/// <summary>How senders and receiver speak to a broker.</summary>
internal static class Brokers
{
    /// <summary>The usual options; MQTT 3.1.1, which every broker understands.</summary>
    public static MqttClientOptionsBuilder Options(BrokerPlace place, string? user, Secret? password, string? trusted)
    {
        MqttClientOptionsBuilder options = new MqttClientOptionsBuilder()
            .WithTcpServer(place.Server, place.Port)
            .WithProtocolVersion(MqttProtocolVersion.V311)
            .WithCleanSession();
        if (user is not null && password is not null)
        {
            options = options.WithCredentials(user, password.Read());
        }

        return place.Tls
            ? options.WithTlsOptions(tls =>
            {
                tls.UseTls();
                if (trusted is not null)
                {
                    Func<System.Security.Cryptography.X509Certificates.X509Certificate?, System.Net.Security.SslPolicyErrors, bool> trust = Trust.In(trusted);
                    tls.WithCertificateValidationHandler(shown => trust(shown.Certificate, shown.SslPolicyErrors));
                }
            })
            : options;
    }
}
