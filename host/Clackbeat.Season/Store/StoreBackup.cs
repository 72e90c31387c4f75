using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>
/// Backups: always one SQLite file, whatever the store stands on, so that a backup is itself a season store that every command
/// reads. Restoring adds what is missing and overwrites nothing, so it also moves a store from a file to a server and back.
/// </summary>
public static class StoreBackup
{
    private const int ABatch = 500;

    /// <summary>Copies the whole store as it stands while others go on writing.</summary>
    /// <param name="store">The store.</param>
    /// <param name="path">The copy; it must not exist. It gets its name when it is whole.</param>
    /// <exception cref="InputException">The name is taken, or the file can't be made.</exception>
    public static void Write(ISeasonStore store, string path)
    {
        if (File.Exists(path))
        {
            throw InputException.Of("input.exists-other-name", ("file", path));
        }

        string part = path + ".part";
        File.Delete(part);
        try
        {
            if (store is SqliteSeasonStore file)
            {
                file.BackUp(part);
            }
            else
            {
                using var copy = SqliteSeasonStore.Open(part, create: true);
                Copy(store, copy);
            }

            File.Move(part, path);
        }
        finally
        {
            foreach (string rest in new[] { part, part + "-wal", part + "-shm" })
            {
                File.Delete(rest);
            }
        }
    }

    /// <summary>Adds everything that a backup holds and the store lacks.</summary>
    /// <param name="path">The backup, or any other season store in a file.</param>
    /// <param name="store">The store.</param>
    /// <returns>Bursts added.</returns>
    /// <exception cref="InputException">The file is no season store.</exception>
    public static int Restore(string path, ISeasonStore store)
    {
        using var backup = SqliteSeasonStore.Open(path, create: false);
        return Copy(backup, store);
    }

    private static int Copy(ISeasonStore from, ISeasonStore to)
    {
        int added = 0;
        foreach (string ram in from.Rams())
        {
            foreach (SeasonBurst[] batch in from.Bursts(ram, TimeSpanUtc.All).Chunk(ABatch))
            {
                added += to.Add(batch);
            }

            foreach (MaintenanceMark mark in from.Marks(ram))
            {
                to.Add(mark);
            }
        }

        return added;
    }
}
