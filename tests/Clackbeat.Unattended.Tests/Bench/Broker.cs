using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>A real MQTT broker: Debian's mosquitto, on a port of its own.</summary>
internal sealed class Broker : IDisposable
{
    private static readonly string[] Places = ["/usr/sbin/mosquitto", "/usr/local/sbin/mosquitto", "/usr/bin/mosquitto"];

    private readonly Process _process;

    private Broker(Process process, int port) => (_process, Port) = (process, port);

    public static bool IsThere => Array.Exists(Places, File.Exists);

    public int Port { get; }

    /// <summary>Starts one; with an account where a password is given.</summary>
    public static Broker Start(TemporaryFolder folder, string? account = null, string? password = null)
    {
        int port;
        using (var free = new TcpListener(IPAddress.Loopback, 0))
        {
            free.Start();
            port = ((IPEndPoint)free.LocalEndpoint).Port;
        }

        string config = folder["mosquitto.conf"];
        string who = account is null ? "allow_anonymous true" : $"allow_anonymous false\npassword_file {Passwords(folder, account, password!)}";

        // Started as root it would change to a user of its own, who may not read a test's files.
        File.WriteAllText(config, $"listener {port} 127.0.0.1\n{who}\nuser {Environment.UserName}\n");
        Process process = Process.Start(new ProcessStartInfo(Array.Find(Places, File.Exists)!, ["-c", config]) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        for (int i = 0; i < 200; i++)
        {
            try
            {
                using var probe = new TcpClient("127.0.0.1", port);
                return new Broker(process, port);
            }
            catch (SocketException)
            {
                Thread.Sleep(50);
            }
        }

        throw new TimeoutException("mosquitto does not answer");
    }

    public void Dispose()
    {
        _process.Kill();
        _process.WaitForExit();
        _process.Dispose();
    }

    private static string Passwords(TemporaryFolder folder, string account, string password)
    {
        string path = folder["passwords"];
        using var made = Process.Start("mosquitto_passwd", ["-c", "-b", path, account, password]);
        made.WaitForExit();
        return path;
    }
}
