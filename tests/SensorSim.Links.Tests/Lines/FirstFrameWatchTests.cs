// SPDX-License-Identifier: MIT
using NSubstitute;
using SensorSim.Links.Lines;

namespace SensorSim.Links.Tests.Lines;

/// <summary>Bytes without a frame: the sentence that hints at the baud rate.</summary>
public sealed class FirstFrameWatchTests
{
    [Test]
    public void Bytes_WithoutFrame_AreHopelessFromTheLimitOn()
    {
        var watch = new FirstFrameWatch(Link(11_520), 100);
        watch.Add(60);
        Assert.That(watch.IsHopeless, Is.False);
        watch.Add(40);
        Assert.That(watch.IsHopeless, Is.True);
        Assert.That(watch.Sentence(), Is.EqualTo("No valid frame in 100 bytes from the line X: is the baud rate the one that the board uses?"));
    }

    [Test]
    public void Frame_OnceItCame_EndsTheWatch()
    {
        var watch = new FirstFrameWatch(Link(11_520), 100);
        watch.Add(99);
        watch.FrameCame();
        watch.Add(5000);
        Assert.That((watch.IsHopeless, watch.HasFrame, watch.Bytes), Is.EqualTo((false, true, 99)));
    }

    [TestCase(null, 0, "Nothing came from the line X: is the board on, and does its firmware speak the link protocol?")]
    [TestCase(960L, 0, "Nothing came from the line X: is the board on, and does its firmware speak the link protocol at this baud rate?")]
    [TestCase(null, 12, "No valid frame in 12 bytes from the line X: does the other end speak the link protocol?")]
    public void Sentence_SaysWhatCameAndWhatToLookAt(long? bytesPerSecond, int bytes, string sentence)
    {
        var watch = new FirstFrameWatch(Link(bytesPerSecond));
        watch.Add(bytes);
        Assert.That(watch.Sentence(), Is.EqualTo(sentence));
    }

    private static ILink Link(long? bytesPerSecond)
    {
        var link = Substitute.For<ILink>();
        link.Name.Returns("line X");
        link.BytesPerSecond.Returns(bytesPerSecond);
        return link;
    }
}
