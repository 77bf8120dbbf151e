// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests;

/// <summary>What the check says is what the library does.</summary>
[TestFixture]
public sealed class AccelerometerCheckTests
{
    [Test]
    public void Refusal_EveryRateAndRange_IsGivenWhereNoCadenceCanCome()
    {
        foreach (int rateHz in new[] { 1, 11, 12, 50, 1600, 1601, 3200 })
        {
            foreach (double gPerCode in new[] { 1.0 / 4, 1.0 / 15.9, 1.0 / 16, 1.0 / 4096, 1.0 / (1 << 19), 1.0 / ((1 << 19) + 1) })
            {
                int codesPerG = (int)Math.Floor(Math.Round(256 / gPerCode) / 256);
                bool isUsed = rateHz is >= 12 and <= 1600 && codesPerG is >= 16 and <= 1 << 19;
                Assert.That(AccelerometerCheck.Refusal(Format(gPerCode, rateHz, rateHz, rateHz)) is null, Is.EqualTo(isUsed), $"{rateHz} Hz, {gPerCode} g a code");
            }
        }
    }

    [Test]
    public void Refusal_AxesOfSeveralRates_NamesThem() =>
        Assert.That(AccelerometerCheck.Refusal(Format(1.0 / 4096, 50, 50, 100)), Is.EqualTo("its axes have 50, 50, 100 Hz; they need one rate"));

    [Test]
    public void Refusal_AxesOfSeveralWeights_NamesThem() =>
        Assert.That(
            AccelerometerCheck.Refusal(new([Channel(ChannelName.AccelX, 50, 0.001), Channel(ChannelName.AccelY, 50, 0.001), Channel(ChannelName.AccelZ, 50, 0.5)])),
            Is.EqualTo("its axes have 0.001, 0.001, 0.5 g per code; they need one weight"));

    [Test]
    public void Refusal_TwoAxes_NamesThem() =>
        Assert.That(AccelerometerCheck.Refusal(Format(1.0 / 4096, 50, 50)), Is.EqualTo("it has accel_x and accel_y only; three axes are needed"));

    [Test]
    public void Refusal_NoAxis_IsNone() => Assert.That(AccelerometerCheck.Refusal(Format(1)), Is.Null);

    // The library itself is asked: of a walk it gives a cadence where it uses the axes, and none where it does not.
    [TestCase(25, 25, 25, 1000, 1000, 1000)]
    [TestCase(100, 100, 100, 4096, 4096, 4096)]
    [TestCase(12, 12, 12, 1000, 1000, 1000)]
    [TestCase(11, 11, 11, 1000, 1000, 1000)]
    [TestCase(25, 25, 25, 16, 16, 16)]
    [TestCase(25, 25, 25, 15, 15, 15)]
    [TestCase(25, 50, 25, 1000, 1000, 1000)]
    [TestCase(25, 25, 50, 1000, 1000, 1000)]
    [TestCase(50, 25, 25, 1000, 1000, 1000)]
    [TestCase(25, 25, 25, 1000, 1001, 1000)]
    [TestCase(25, 25, 25, 1000, 1000, 2000)]
    [TestCase(25, 25, 25, 500, 1000, 1000)]
    [TestCase(25, 25, 0, 1000, 1000, 0)]
    [TestCase(0, 25, 25, 0, 1000, 1000)]
    public void Refusal_OfAxes_IsGivenWhereTheLibraryGivesNoCadence(int rateX, int rateY, int rateZ, int codesX, int codesY, int codesZ)
    {
        ChannelFormat[] axes =
        [
            .. new[] { (rateX, codesX), (rateY, codesY), (rateZ, codesZ) }
                .Select((axis, i) => (Name: ChannelName.AccelX + i, RateHz: axis.Item1, CodesPerG: axis.Item2))
                .Where(a => a.RateHz > 0)
                .Select(a => Channel(a.Name, a.RateHz, 1.0 / a.CodesPerG)),
        ];
        StreamFormat format = new([Channel(ChannelName.Infrared, 100, 0.001), .. axes]);

        Assert.That(AccelerometerCheck.Refusal(format) is null, Is.EqualTo(Cadences(format) > 0));
    }

    // Nothing else of the stream decides: beside an ECG alone the cadence is given as well.
    [Test]
    public void Refusal_AxesBesideAnEcgAlone_AreUsedAndGiveACadence()
    {
        foreach ((int rateHz, bool isUsed) in new[] { (50, true), (11, false) })
        {
            StreamFormat format = Format(1.0 / 1000, rateHz, rateHz, rateHz);

            Assert.That((AccelerometerCheck.Refusal(format) is null, Cadences(format) > 0), Is.EqualTo((isUsed, isUsed)), $"{rateHz} Hz");
        }
    }

    // A minute of 114 steps a minute: 0.3 g along every axis on 1 g upward, beside a light without pulse or an ECG without beats.
    private static int Cadences(StreamFormat format)
    {
        using var detector = new LibraryDetector();
        detector.Start(format);
        var output = new DetectorOutput();
        var block = new SampleBlock(format, format.Clock.TicksPerSecond);
        int cadences = 0;
        for (int second = 0; second < 60; second++)
        {
            block.Begin(second * format.Clock.TicksPerSecond, (second + 1) * format.Clock.TicksPerSecond);
            for (int channel = 0; channel < format.Channels.Count; channel++)
            {
                ChannelFormat c = format.Channels[channel];
                block.Channels[channel].Append(second * c.RateHz, c.RateHz, out Span<int> codes, out Span<ushort> status);
                status.Clear();
                for (int i = 0; i < c.RateHz; i++)
                {
                    double t = second + ((double)i / c.RateHz);
                    codes[i] = c.Name is ChannelName.Infrared or ChannelName.Ecg ? 20_000 : (int)Math.Round(((c.Name == ChannelName.AccelZ ? 1 : 0) + (0.3 * Math.Sin(2 * Math.PI * 1.9 * t))) / c.UnitPerCode);
                }
            }

            detector.Process(block, output);
            while (output.Marks.TryTake(out Mark mark))
            {
                cadences += mark.Kind == MarkKind.CadencePerMin ? 1 : 0;
            }
        }

        return cadences;
    }

    private static StreamFormat Format(double gPerCode, params int[] ratesHz) => new(
    [
        Channel(ChannelName.Ecg, 250, 0.001),
        .. ratesHz.Select((rateHz, axis) => Channel(ChannelName.AccelX + axis, rateHz, gPerCode)),
    ]);

    private static ChannelFormat Channel(ChannelName name, int rateHz, double unitPerCode) => new()
    {
        Name = name, Device = "watch", RateHz = rateHz, Bits = 16, IsSigned = true, UnitPerCode = unitPerCode,
    };
}
