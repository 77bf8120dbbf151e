// SPDX-License-Identifier: MIT
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Detectors;

namespace SensorSim.Studies.Tests.Running;

/// <summary>The stretch that a picture shows is what the stream gave.</summary>
[TestFixture]
public sealed class FirstSecondsTests
{
    [TestCase(0, 3)]
    [TestCase(1.501, 4.25)]
    public void Values_OfARun_AreTheCodesAboveZeroTimesTheirUnit(double begin, double end)
    {
        var scenario = Runs.Read(6);
        SensorStream stream = scenario.CreateStream();
        var first = new FirstSeconds(stream.Format, begin, end);
        Runs.Run(scenario, new KnowingDetector(scenario), first);
        var whole = new SampleBlock(stream.Format, stream.EndTick);
        stream.Read(whole, stream.EndTick);

        for (int c = 0; c < stream.Format.Channels.Count; c++)
        {
            ChannelFormat format = stream.Format.Channels[c];
            int from = (int)Math.Ceiling(begin * format.RateHz);
            int to = (int)Math.Ceiling(end * format.RateHz);
            double[] expected = [.. whole.Channels[c].Codes[from..to].ToArray().Select(code => (code - format.ZeroCode) * format.UnitPerCode)];
            Assert.That(first.Values(c), Is.EqualTo(expected), format.Name.Text());
            Assert.That(first.Seconds(c, 0), Is.EqualTo((double)from / format.RateHz));
        }

        Assert.That(first.Truth, Is.Not.Empty.And.All.Matches<TruthEvent>(t => t.TimeNs >= begin * 1e9 && t.TimeNs < end * 1e9));
        Assert.That(first.Marks, Has.Some.Matches<Mark>(m => m.Kind == MarkKind.RPeak));
    }

    [Test]
    public void Values_Gap_AreNotNumbers()
    {
        var format = new StreamFormat([new ChannelFormat
        {
            Name = ChannelName.Ecg, Device = "d", RateHz = 10, Bits = 12, IsSigned = true, UnitPerCode = 0.5, ZeroCode = 2, Polarity = -1,
        }]);
        var block = new SampleBlock(format, 10);
        block.Begin(0, 10);
        block.Channels[0].Append(1, 2, out Span<int> codes, out _);
        codes.Fill(4);
        block.Channels[0].Append(5, 1, out codes, out _);
        codes.Fill(2);
        var first = new FirstSeconds(format, 0, 1);

        first.OnBlock(block);

        // (code - 2) x 0.5 x -1
        Assert.That(first.Values(0), Is.EqualTo(new[] { double.NaN, -1, -1, double.NaN, double.NaN, 0, double.NaN, double.NaN, double.NaN, double.NaN }));
    }

    // Device = declared + offset + (1 + ppm / 10⁶) × body: of 2 s at 1000 ppm, 2.002 s, and 0.5 s and 0.03 s on top.
    [Test]
    public void DeviceSeconds_ClockThatIsOff_IsWhatTheDeviceShows()
    {
        var format = new StreamFormat([new ChannelFormat
        {
            Name = ChannelName.Ecg, Device = "d", RateHz = 10, Bits = 12, IsSigned = true, UnitPerCode = 1, DeclaredDelayNs = 30_000_000,
        }]);
        var first = new FirstSeconds(format, 0, 2.1, [new ChannelClock(ChannelName.Ecg, 500_000_000, 1000)]);
        first.OnTruth(Peak(1.5));
        first.OnTruth(Peak(1.599));
        first.OnTruth(Peak(-0.6));

        Assert.That(first.DeviceSeconds(0, 2_000_000_000), Is.EqualTo(2.532).Within(1e-9));
        Assert.That(first.Truth.Select(t => t.TimeNs), Is.EqualTo(new[] { 1_500_000_000 }), "2.0015 s, 2.1006 s and before the start");

        static TruthEvent Peak(double seconds) =>
            new(ChannelName.Ecg, MarkKind.RPeak, (long)Math.Round(seconds * 1e9), 1, 0, BeatClass.Normal, TruthFlags.None);
    }

    [Test]
    public void FirstSeconds_EndBeforeBegin_IsRefused() => Assert.That(
        () => new FirstSeconds(Runs.Read(2).CreateStream().Format, 2, 2), Throws.TypeOf<ArgumentOutOfRangeException>());
}
