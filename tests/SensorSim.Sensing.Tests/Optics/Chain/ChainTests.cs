// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.Optics.Chain;

/// <summary>The whole chain at once: the same for every cut, no byte allocated, and no part touches another's.</summary>
public sealed class ChainTests
{
    private const double Seconds = 40;

    private static KeyValues All() => Settings.Everything()
        .Set(OpticsKeys.GreenNa, 900)
        .Set(OpticsKeys.RedMa, 13)
        .Set(OpticsKeys.SettlingMs, 80)
        .Set(OpticsKeys.CrosstalkPercent, 2)
        .Set(OpticsKeys.AmplifierFullNa, 2600)
        .Set(OpticalNoiseKeys.ShotNoise, "on")
        .Set(OpticalNoiseKeys.FeedbackKohm, 200)
        .Set(ContactKeys.LiftOffsPerHour, 300)
        .Set(ContactKeys.LiftOffSeconds, 1)
        .Set(ContactKeys.PressureMmhg, 25)
        .Set(LevelControlKeys.LevelControl, "on")
        .Set(LevelControlKeys.LowPercent, 40)
        .Set(LevelControlKeys.HighPercent, 50)
        .SetChanges(ContactKeys.ContactPercent, [new CourseChange(5, ChangeKind.Step, 80, 0), new CourseChange(20, ChangeKind.Ramp, 100, 9)], []);

    [Test]
    public void Chain_AnyCutAndCopy_GivesTheSameBits()
    {
        Recording whole = Recording.Of(All(), Seconds);
        Assert.That(whole.Status(ChannelName.Red).Aggregate(0, (a, s) => a | s) & StatusWord.Flags, Is.EqualTo((int)(SampleStatus.NoContact | SampleStatus.Saturated)));
        foreach (long ticks in new long[] { 1, 17, 65_536 })
        {
            Recording.Of(All(), Seconds, blockTicks: ticks).AssertSameAs(whole, $"blocks of {ticks} ticks");
        }

        var stream = new SensorStream(All(), 7, Seconds);
        Recording head = Recording.OfPart(stream, 10_007);
        head.Then(Recording.OfRest(stream.Copy(), 999)).AssertSameAs(whole, "copy");
        head.Then(Recording.OfRest(stream, 31)).AssertSameAs(whole, "original");
    }

    [Test]
    public void Chain_AfterWarmUp_AllocatesNothing()
    {
        var stream = new SensorStream(All(), 7, double.PositiveInfinity);
        var block = new SampleBlock(stream.Format, 500);
        Advance(stream, block, 60);
        Assert.That(Allocations.Least(() => Advance(stream, block, 300)), Is.Zero);
    }

    // Without the control, which looks at everything, each knob changes the slots that it is about and no other channel.
    private static IEnumerable<TestCaseData> Knobs()
    {
        ChannelName[] lit = [ChannelName.Red, ChannelName.Infrared, ChannelName.Green];
        ChannelName[] slots = [.. lit, ChannelName.Dark];
        yield return Case("red current", v => v.Set(OpticsKeys.RedMa, 5), [ChannelName.Red, ChannelName.Infrared]);
        yield return Case("crosstalk", v => v.Set(OpticsKeys.CrosstalkPercent, 5), slots[1..]);

        // Lifted off, every slot sees ten times the room.
        yield return Case("rail", v => v.Set(OpticsKeys.AmplifierFullNa, 2200), slots);
        yield return Case("shot noise", v => v.Set(OpticalNoiseKeys.ShotNoise, "off"), slots);
        yield return Case("resistor", v => v.Set(OpticalNoiseKeys.FeedbackKohm, 1), slots);
        yield return Case("temperature", v => v.Set(OpticalNoiseKeys.TemperatureC, 80), slots);
        yield return Case("lift-offs", v => v.Set(ContactKeys.LiftOffsPerHour, 360), slots);
        yield return Case("leak", v => v.Set(ContactKeys.LeakRatio, 2), slots);

        // With crosstalk the dark slot sees the pulse of the one before.
        yield return Case("pressure", v => v.Set(ContactKeys.PressureMmhg, 70), slots);
        yield return Case("settling", v => v.Set(OpticsKeys.SettlingMs, 5), []);
        yield return Case("band", v => v.Set(LevelControlKeys.LowPercent, 10), []);
    }

    [TestCaseSource(nameof(Knobs))]
    public void Knob_TurnedOn_ChangesItsSlotsOnly(Action<KeyValues> turn, ChannelName[] slots)
    {
        KeyValues values = Settings.Fine(All()).Set(LevelControlKeys.LevelControl, "off");
        KeyValues turned = values.Copy();
        turn(turned);
        Recording before = Recording.Of(values, Seconds);
        Recording after = Recording.Of(turned, Seconds);
        foreach (ChannelFormat channel in before.Format.Channels)
        {
            Assert.That(after.Codes(channel.Name).SequenceEqual(before.Codes(channel.Name)), Is.EqualTo(!slots.Contains(channel.Name)), channel.Name.Text());
        }

        Assert.That(after.TruthText(Seconds), Is.EqualTo(before.TruthText(Seconds)));
    }

    private static TestCaseData Case(string what, Action<KeyValues> turn, ChannelName[] slots) => new TestCaseData(turn, slots).SetArgDisplayNames(what);

    private static void Advance(SensorStream stream, SampleBlock block, int blocks)
    {
        for (int i = 0; i < blocks; i++)
        {
            stream.Read(block, stream.PositionTick + block.MaximumTicks);
            while (stream.Truth.TryTake(out _))
            {
            }

            while (stream.Acquisition.TryTake(out _))
            {
            }
        }
    }
}
