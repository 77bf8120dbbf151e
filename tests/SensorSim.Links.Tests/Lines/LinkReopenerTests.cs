// SPDX-License-Identifier: MIT
using System.Diagnostics;
using NSubstitute;
using SensorSim.Links.Lines;
using SensorSim.Links.Tests.Support;

namespace SensorSim.Links.Tests.Lines;

/// <summary>A link that was lost is opened again when it comes back.</summary>
public sealed class LinkReopenerTests
{
    [Test]
    public void Port_ThatComesBack_IsOpened()
    {
        int tries = 0;
        var link = Substitute.For<ILink>();
        var reopener = new LinkReopener(() => ++tries < 3 ? throw new LinkUnavailableException("There is no serial port X.") : link);

        Assert.That(reopener.Reopen(TimeSpan.FromSeconds(30)), Is.SameAs(link));
        Assert.That((tries, reopener.LastTrouble), Is.EqualTo((3, (LinkUnavailableException?)null)));
    }

    [Test]
    public void Port_ThatStaysAway_IsGivenUpInTimeWithTheReason()
    {
        var reopener = new LinkReopener(() => throw new LinkUnavailableException("There is no serial port X."));
        long begin = Stopwatch.GetTimestamp();

        Assert.That(reopener.Reopen(TimeSpan.FromMilliseconds(500)), Is.Null);
        Assert.That(Stopwatch.GetElapsedTime(begin).TotalSeconds, Is.InRange(0.29, 3));
        Assert.That(reopener.LastTrouble?.Message, Is.EqualTo("There is no serial port X."));
    }

    [Test]
    public void Waiting_IsEndedByTheToken()
    {
        using var cancellation = new CancellationTokenSource(TimeSpan.FromMilliseconds(50));
        var reopener = new LinkReopener(() => throw new LinkUnavailableException("no"));
        long begin = Stopwatch.GetTimestamp();
        Assert.That(reopener.Reopen(TimeSpan.FromMinutes(5), cancellation.Token), Is.Null);
        Assert.That(Stopwatch.GetElapsedTime(begin).TotalSeconds, Is.LessThan(10));
    }

    [Test]
    public void Pty_PulledOutAndPluggedInAgain_WorksAgain()
    {
        string link = Path.Combine(Directory.CreateTempSubdirectory("sensorsim-replug").FullName, "board");
        var first = new PtyPair();
        File.CreateSymbolicLink(link, first.Host);
        var reopener = new LinkReopener(() => LinkAddress.Parse(link).Open(new LinkOptions()));
        using (ILink lost = reopener.Reopen(TimeSpan.Zero)!)
        {
            first.Dispose();
            lost.ReadUntilLost(1);
        }

        File.Delete(link);
        PtyPair? second = null;
        Task replug = Task.Run(() =>
        {
            using var pause = new ManualResetEventSlim();
            pause.Wait(TimeSpan.FromMilliseconds(400));
            second = new PtyPair();
            File.CreateSymbolicLink(link, second.Host);
        });
        using ILink again = reopener.Reopen(TimeSpan.FromSeconds(20))!;
        replug.Wait();
        using (second)
        using (SerialLink board = SerialLink.Open(second!.Board, new LinkOptions()))
        {
            again.Write("back"u8);
            Assert.That(board.ReadAll(4), Is.EqualTo("back"u8.ToArray()));
        }

        Directory.Delete(Path.GetDirectoryName(link)!, true);
    }
}
