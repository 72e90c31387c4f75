using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using Clackbeat.Unattended.Settings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Delivery;

/// <summary>
/// Starts a program. The message goes in environment variables and as JSON on its input; the program's own arguments are those of
/// the settings, and no shell reads any of it, so no word of a message can become a command.
/// </summary>
public sealed class CommandWay(CommandSettings settings) : IWay
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <inheritdoc/>
    public string Name => "command";

    /// <inheritdoc/>
    public bool IsForPeople => true;

    /// <inheritdoc/>
    public async Task Send(AlertMessage message, CancellationToken cancellation)
    {
        var start = new ProcessStartInfo(settings.Run[0], settings.Run.Skip(1))
        {
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach ((string name, string value) in Variables(message))
        {
            start.Environment[name] = value;
        }

        using Process process = Begin(start);
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(Patience);
        try
        {
            Task<string> output = process.StandardOutput.ReadToEndAsync(limit.Token);
            Task<string> error = process.StandardError.ReadToEndAsync(limit.Token);
            await Feed(process, message.ToJson()).ConfigureAwait(false);
            await process.WaitForExitAsync(limit.Token).ConfigureAwait(false);
            await output.ConfigureAwait(false);
            string words = await error.ConfigureAwait(false);
            if (process.ExitCode != 0)
            {
                throw new DeliveryException(Phrases.Say("delivery.ended-with", ("program", settings.Run[0]), ("code", process.ExitCode), ("words", FirstLine(words))).Trim());
            }
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw new DeliveryException(Phrases.Say("delivery.too-slow", ("program", settings.Run[0]), ("patience_s", Patience.TotalSeconds)));
        }
    }

    private static IEnumerable<(string, string)> Variables(AlertMessage message)
    {
        static string Text(double? value) => value?.ToString("R", CultureInfo.InvariantCulture) ?? "";
        yield return ("CLACKBEAT_ID", message.Id);
        yield return ("CLACKBEAT_ALERT", message.Alert.ToString(CultureInfo.InvariantCulture));
        yield return ("CLACKBEAT_EVENT", message.Event);
        yield return ("CLACKBEAT_RAM", message.Ram);
        yield return ("CLACKBEAT_KIND", message.Kind);
        yield return ("CLACKBEAT_SINCE", message.SinceUtc.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
        yield return ("CLACKBEAT_TITLE", message.Title);
        yield return ("CLACKBEAT_TEXT", message.Text);
        yield return ("CLACKBEAT_VALUE", Text(message.Value));
        yield return ("CLACKBEAT_LIMIT", Text(message.Limit));
    }

    private Process Begin(ProcessStartInfo start)
    {
        try
        {
            return Process.Start(start)!;
        }
        catch (Exception fault) when (fault is Win32Exception or IOException or InvalidOperationException)
        {
            throw new DeliveryException(Phrases.Say("delivery.cant-start", ("program", settings.Run[0]), ("why", fault.Message)), fault);
        }
    }

    // A program that doesn't read its input has closed it by then, and that is its own affair.
    private static async Task Feed(Process process, string json)
    {
        try
        {
            await process.StandardInput.WriteLineAsync(json).ConfigureAwait(false);
            process.StandardInput.Close();
        }
        catch (IOException)
        {
        }
    }

    private static string FirstLine(string words) => words.Split('\n', 2)[0].Trim();
}
