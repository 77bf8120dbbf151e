// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics.Chain;

/// <summary>The sensor's own control of the LED current: band 30 to 70 % of 4096 nA, a look at every 64th sample of 100 Hz (0.64 s).</summary>
public sealed class LevelControlTests
{
    private static KeyValues Values(double redNa) => Settings.Fine()
        .Set(LevelControlKeys.LevelControl, "on").Set(LevelControlKeys.MostMa, 200).Set(OpticsKeys.RedNa, redNa);

    // 200 nA are 5 %: doubled at 0.64 s, and after 64 samples of waiting again at 1.92 and 3.2 s, up to 1600 nA, 39 %.
    // Worked out by hand; the codes of 10, 20, 40 and 80 mA are those of runs that start with them.
    [Test]
    public void Light_TooDim_IsDoubledUntilItIsInTheBand()
    {
        Analog run = Analog.Of(Values(200), 8);
        Assert.That(Steps(run, ChannelName.Red), Is.EqualTo(new[] { (640_000_000L, 20.0), (1_920_000_000L, 40.0), (3_200_000_000L, 80.0) }));
        double[] red = run[ChannelName.Red];
        foreach ((int from, int to, double ma) in new[] { (0, 64, 10), (64, 192, 20), (192, 320, 40), (320, 800, 80.0) })
        {
            double[] fixedMa = Analog.Of(Settings.Fine().Set(OpticsKeys.RedNa, 200).Set(OpticsKeys.RedMa, ma), 8)[ChannelName.Red];
            Assert.That(red[from..to], Is.EqualTo(fixedMa[from..to]), $"{ma} mA");
        }

        Assert.That(
            run.Status(ChannelName.Red).Select(s => s >> StatusWord.SettingsShift),
            Is.EqualTo(Enumerable.Range(0, 800).Select(n => n < 64 ? 0 : n < 192 ? 1 : n < 320 ? 2 : 3)));
        Assert.That(run.Status(ChannelName.Dark), Has.All.Zero);
    }

    // 3980 nA on the mean are 97 %; to 50 % they need 2048/3980 of 10 mA: 5.1 mA, at once.
    [Test]
    public void Light_TooBright_GoesToTheMiddleAtOnce()
    {
        Analog run = Analog.Of(Values(4020).Set(OpticsKeys.InfraredNa, 2000), 8);
        Assert.That(Steps(run, ChannelName.Red), Is.EqualTo(new[] { (640_000_000L, 5.1) }));
        Assert.That(Steps(run, ChannelName.Infrared), Is.Empty);
        Assert.That(run[ChannelName.Red][64..].Average() / 4096, Is.EqualTo(0.5).Within(0.01));
    }

    // Clamped codes say 99 % whatever the light: halved at each look that counts, until the light is within the converter's range.
    [Test]
    public void Light_BeyondFullScale_IsHalvedUntilItIsInTheBand()
    {
        Analog run = Analog.Of(Values(30_000), 20);
        Assert.That(Steps(run, ChannelName.Red).Select(s => s.Ma).Take(2), Is.EqualTo(new[] { 5.1, 2.6 }).Within(0.11));
        Assert.That(run[ChannelName.Red][1500..].Average() / 4096, Is.InRange(0.3, 0.7));
        Assert.That(run.Status(ChannelName.Red)[1500..].Select(s => s & StatusWord.Flags), Has.All.Zero);
    }

    [Test]
    public void Current_AtItsMost_StaysThere()
    {
        Analog run = Analog.Of(Values(20).Set(LevelControlKeys.MostMa, 25), 8);
        Assert.That(Steps(run, ChannelName.Red), Is.EqualTo(new[] { (640_000_000L, 20.0), (1_920_000_000L, 25.0) }));
    }

    // In the band nothing happens: not one bit differs from a sensor without control.
    [Test]
    public void Light_InTheBand_KeepsItsBits()
    {
        KeyValues values = Settings.Everything();
        Recording.Of(values.Copy().Set(LevelControlKeys.LevelControl, "on"), 30).AssertSameAs(Recording.Of(values, 30), "in the band");
    }

    [Test]
    public void Control_AnyCutAndCopy_GivesTheSameStepsAndBits()
    {
        KeyValues values = Values(300).Set(OpticsKeys.InfraredNa, 9000).Set(OpticsKeys.SettlingMs, 200).Set(AmbientKeys.LevelNa, 200)
            .Set(LevelControlKeys.LowPercent, 45).Set(LevelControlKeys.HighPercent, 55).Set(ContactKeys.LeakRatio, 1)
            .Set(OpticsKeys.WhiteNoiseNaRms, 20).SetChanges(ContactKeys.ContactPercent, [new CourseChange(8, ChangeKind.Ramp, 20, 5)], []);
        Analog whole = Analog.Of(values, 25);
        Assert.That(whole.Events, Has.Count.GreaterThan(8));
        foreach (long ticks in new long[] { 1, 17, 65_536 })
        {
            Analog cut = Analog.Of(values, 25, blockTicks: ticks);
            cut.Recording.AssertSameAs(whole.Recording, $"blocks of {ticks}");
        }

        var stream = new SensorStream(values, 7, 25);
        Recording head = Recording.OfPart(stream, 1234);
        SensorStream copy = stream.Copy();
        head.Then(Recording.OfRest(copy, 777)).AssertSameAs(whole.Recording, "copy");
        head.Then(Recording.OfRest(stream, 41)).AssertSameAs(whole.Recording, "original");
    }

    private static (long Ns, double Ma)[] Steps(Analog run, ChannelName name) =>
    [
        .. run.Events.Where(e => e.Channel == name && e.Kind == AcquisitionKind.Setting).Select(e => (e.BeginNs, e.Value)),
    ];
}
