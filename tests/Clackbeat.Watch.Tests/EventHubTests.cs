using System.Text;
using Clackbeat.Watch.Stream;

namespace Clackbeat.Watch.Tests;

/// <summary>A page that takes its events too slowly costs no memory and misses nothing for good.</summary>
public class EventHubTests
{
    [Fact]
    public void A_page_that_never_reads_holds_a_bounded_queue_whatever_is_sent()
    {
        var hub = new EventHub();
        EventHub.Listener slow = hub.Add(() => Bytes("picture"))!;
        for (int i = 0; i < 100 * EventHub.MostWaiting; i++)
        {
            hub.Send(() => [Bytes($"{i}")]);
            Assert.InRange(slow.Events.Count, 1, EventHub.MostWaiting);
        }

        Assert.InRange(slow.Restarts, 1, 100);
    }

    [Fact]
    public void A_page_that_fell_behind_goes_on_from_a_whole_picture_in_order()
    {
        var hub = new EventHub();
        int newest = 0;
        EventHub.Listener slow = hub.Add(() => Bytes($"picture {newest}"))!;
        for (newest = 1; newest <= (2 * EventHub.MostWaiting) + 5; newest++)
        {
            hub.Send(() => [Bytes($"{newest}")]);
        }

        List<string> read = [];
        while (slow.Events.TryRead(out byte[]? happening))
        {
            read.Add(Encoding.ASCII.GetString(happening));
        }

        int begin = read.FindLastIndex(r => r.StartsWith("picture", StringComparison.Ordinal));
        Assert.Equal(0, begin);
        int picture = int.Parse(read[0]["picture ".Length..], System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(Enumerable.Range(picture + 1, newest - 1 - picture).Select(n => $"{n}"), read.Skip(1));
    }

    [Fact]
    public void A_quick_page_gets_every_event_once()
    {
        var hub = new EventHub();
        EventHub.Listener quick = hub.Add(() => Bytes("picture"))!;
        Assert.True(quick.Events.TryRead(out _));
        for (int i = 0; i < 1000; i++)
        {
            hub.Send(() => [Bytes($"{i}")]);
            Assert.True(quick.Events.TryRead(out byte[]? happening));
            Assert.Equal($"{i}", Encoding.ASCII.GetString(happening));
        }

        Assert.Equal(0, quick.Restarts);
    }

    [Fact]
    public void No_more_pages_listen_than_there_is_room_for()
    {
        var hub = new EventHub();
        for (int i = 0; i < EventHub.MostPages; i++)
        {
            Assert.NotNull(hub.Add(() => []));
        }

        Assert.Null(hub.Add(() => []));
    }

    private static byte[] Bytes(string text) => Encoding.ASCII.GetBytes(text);
}
