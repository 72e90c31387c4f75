using System.Text.Json;
using System.Text.Json.Serialization;
using Clackbeat.Site;

namespace Clackbeat.Watch.Accounts;

/// <summary>
/// Accounts in a file that only its owner may read. It is read again whenever it has changed, so that an account that was taken out is
/// out at once.
/// </summary>
/// <param name="path">The file.</param>
public sealed class AccountFile(string path)
{
    /// <summary>Characters of a name at most.</summary>
    public const int LongestName = 60;

    private const string Schema = "clackbeat.accounts/1";
    private const long LargestBytes = 1_000_000;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    private readonly Lock _turn = new();
    private (DateTime Written, long Length) _read;
    private IReadOnlyList<Account> _accounts = [];

    /// <summary>All accounts, by name.</summary>
    /// <exception cref="InputException">The file is missing, or is no list of accounts.</exception>
    public IReadOnlyList<Account> All()
    {
        var file = new FileInfo(path);
        if (!file.Exists)
        {
            throw InputException.Of("account.no-file", ("file", path));
        }

        lock (_turn)
        {
            if (_read != (file.LastWriteTimeUtc, file.Length))
            {
                _accounts = Read(file);
                _read = (file.LastWriteTimeUtc, file.Length);
            }

            return _accounts;
        }
    }

    /// <summary>The account of a name, whatever its letters' case; null for none.</summary>
    /// <param name="name">The name.</param>
    public Account? Find(string name) => All().FirstOrDefault(a => IsNamed(a, name));

    /// <summary>Adds an account, or gives one of that name another role and password.</summary>
    /// <param name="account">The account.</param>
    /// <exception cref="InputException">The name can't be one, or the file can't be written.</exception>
    public void Set(Account account)
    {
        if (account.Name.Length is 0 or > LongestName || account.Name.Any(char.IsControl) || account.Name != account.Name.Trim())
        {
            throw InputException.Of("account.bad-name", ("name", account.Name), ("most", LongestName));
        }

        Write([.. (File.Exists(path) ? All() : []).Where(a => !IsNamed(a, account.Name)), account]);
    }

    /// <summary>Takes an account out.</summary>
    /// <param name="name">Its name.</param>
    /// <exception cref="InputException">There is none of that name.</exception>
    public void Remove(string name)
    {
        if (Find(name) is null)
        {
            throw InputException.Of("account.no-account", ("name", name), ("file", path));
        }

        Write([.. All().Where(a => !IsNamed(a, name))]);
    }

    private static bool IsNamed(Account account, string name) => string.Equals(account.Name, name, StringComparison.OrdinalIgnoreCase);

    private Account[] Read(FileInfo file)
    {
        try
        {
            return file.Length <= LargestBytes && JsonSerializer.Deserialize<Form>(File.ReadAllText(path), Json) is { Schema: Schema, Accounts: { } accounts }
                && accounts.All(a => a is { Name.Length: > 0, PasswordHash.Length: > 0 })
                ? accounts
                : throw InputException.Of("account.spoilt", ("file", path));
        }
        catch (Exception spoilt) when (spoilt is JsonException or UnauthorizedAccessException or IOException)
        {
            throw InputException.Of(spoilt, "account.spoilt", ("file", path));
        }
    }

    // The file is there whole, as it was or as it becomes.
    private void Write(IEnumerable<Account> accounts)
    {
        string part = $"{path}.{Environment.ProcessId}.part";
        try
        {
            var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
            {
                options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            }

            using (var stream = new FileStream(part, options))
            {
                JsonSerializer.Serialize(stream, new Form(Schema, [.. accounts.OrderBy(a => a.Name, StringComparer.OrdinalIgnoreCase)]), Json);
                stream.Flush(flushToDisk: true);
            }

            File.Move(part, path, overwrite: true);
            lock (_turn)
            {
                _read = default;
            }
        }
        catch (Exception failure) when (failure is UnauthorizedAccessException or IOException)
        {
            throw InputException.Of(failure, "account.cant-write", ("file", path), ("why", failure.Message.TrimEnd('.')));
        }
    }

    private sealed record Form(string Schema, Account[] Accounts);
}
