namespace Clackbeat.Unattended.Tests.Crash;

/// <summary>
/// A folder as the calls of a program make it, and as it may be found when the power goes after any of them: the model of Pillai
/// et al., "All File Systems Are Not Created Equal" (OSDI 2014, 433–448). A file's content stands once the file was synced, its
/// name once its folder was; what wasn't may have reached the disk or not, sector by sector and name by name. A rename is one
/// step. Bytes beside those being written don't change (SQLite's "powersafe overwrite").
/// </summary>
internal sealed class CrashedFolder
{
    private const int SectorBytes = 512;

    private readonly Dictionary<string, Node> _now = new() { [""] = new Node(IsFolder: true) };
    private readonly Dictionary<string, Node> _durable;
    private readonly List<(FileCall Call, Node Node)> _pendingNames = [];

    public CrashedFolder() => _durable = new(_now);

    /// <summary>Does a call.</summary>
    public void Do(FileCall call)
    {
        switch (call.Act)
        {
            case FileAct.Create when !_now.ContainsKey(call.Path):
                Name(call, _now[call.Path] = new Node(IsFolder: false));
                break;
            case FileAct.MakeFolder:
                Name(call, _now[call.Path] = new Node(IsFolder: true));
                break;
            case FileAct.Rename:
                Node moved = _now[call.To] = _now[call.Path];
                _now.Remove(call.Path);
                Name(call, moved);
                break;
            case FileAct.Remove:
                Name(call, _now[call.Path]);
                _now.Remove(call.Path);
                break;
            case FileAct.Write or FileAct.Truncate:
                _now[call.Path].Unsynced.Add(call);
                break;
            case FileAct.Sync when _now[call.Path].IsFolder:
                SyncNames(call.Path);
                break;
            case FileAct.Sync:
                _now[call.Path].Sync();
                break;
        }
    }

    /// <summary>Files of whose content something is on the disk itself, by their present names.</summary>
    public IEnumerable<(string Path, byte[] Durable)> Captured() => _now.Where(f => f.Value.Durable.Length > 0).Select(f => (f.Key, f.Value.Durable));

    /// <summary>What may be found after the power went now.</summary>
    /// <param name="random">Decides.</param>
    /// <param name="inOrder">Names reach the disk in their order, as with a journal; otherwise in any.</param>
    public Dictionary<string, byte[]?> Found(Random random, bool inOrder)
    {
        Dictionary<string, Node> names = new(_durable);
        int reached = random.Next(_pendingNames.Count + 1);
        for (int i = 0; i < _pendingNames.Count; i++)
        {
            if (inOrder ? i < reached : random.Next(2) == 0)
            {
                Apply(names, _pendingNames[i]);
            }
        }

        return names.Where(n => IsReachable(names, n.Key)).OrderBy(n => n.Key, StringComparer.Ordinal)
            .ToDictionary(n => n.Key, n => n.Value.IsFolder ? null : n.Value.Found(random));
    }

    private static bool IsReachable(Dictionary<string, Node> names, string path) =>
        path.Length == 0 || (names.TryGetValue(FolderOf(path), out Node? parent) && parent.IsFolder && IsReachable(names, FolderOf(path)));

    private static string FolderOf(string path) => path.Contains('/', StringComparison.Ordinal) ? path[..path.LastIndexOf('/')] : "";

    private void Name(FileCall call, Node node) => _pendingNames.Add((call, node));

    private void SyncNames(string folder)
    {
        bool Concerns((FileCall Call, Node Node) op) =>
            FolderOf(op.Call.Path) == folder || (op.Call.Act == FileAct.Rename && FolderOf(op.Call.To) == folder);
        foreach ((FileCall Call, Node Node) op in _pendingNames.Where(Concerns))
        {
            Apply(_durable, op);
        }

        _pendingNames.RemoveAll(Concerns);
    }

    private static void Apply(Dictionary<string, Node> names, (FileCall Call, Node Node) op)
    {
        if (op.Call.Act is FileAct.Rename or FileAct.Remove && names.GetValueOrDefault(op.Call.Path) == op.Node)
        {
            names.Remove(op.Call.Path);
        }

        if (op.Call.Act != FileAct.Remove)
        {
            names[op.Call.Act == FileAct.Rename ? op.Call.To : op.Call.Path] = op.Node;
        }
    }

    private sealed record Node(bool IsFolder)
    {
        public byte[] Durable { get; private set; } = [];

        public List<FileCall> Unsynced { get; } = [];

        public void Sync()
        {
            byte[] content = Durable;
            Unsynced.ForEach(call => Do(ref content, call));
            Durable = content;
            Unsynced.Clear();
        }

        public byte[] Found(Random random)
        {
            byte[] content = Durable;
            foreach (FileCall call in Unsynced)
            {
                if (call.Act == FileAct.Truncate)
                {
                    if (random.Next(2) == 0)
                    {
                        Do(ref content, call);
                    }

                    continue;
                }

                for (int from = 0; from < call.Bytes!.Length;)
                {
                    int to = (int)Math.Min(call.Bytes.Length, (((call.Offset + from) / SectorBytes) + 1) * SectorBytes - call.Offset);
                    byte[] sector = call.Bytes[from..to];
                    switch (random.Next(4))
                    {
                        case 0:
                            break;
                        case 1:
                            random.NextBytes(sector);
                            goto default;
                        default:
                            Do(ref content, call with { Offset = call.Offset + from, Bytes = sector });
                            break;
                    }

                    from = to;
                }
            }

            // The length may lag behind the bytes.
            return content.Length > Durable.Length && random.Next(3) == 0
                ? content[..random.Next(Durable.Length, content.Length)]
                : content;
        }

        private static void Do(ref byte[] content, FileCall call)
        {
            int length = call.Act == FileAct.Truncate ? (int)call.Offset : Math.Max(content.Length, (int)call.Offset + call.Bytes!.Length);
            byte[] after = new byte[length];
            content.AsSpan(0, Math.Min(length, content.Length)).CopyTo(after);
            call.Bytes?.CopyTo(after.AsSpan((int)call.Offset));
            content = after;
        }
    }
}
