// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Conversion;

public sealed class StuckCodeTests
{
    private static readonly ConversionKeys s_keys = ConversionKeys.Ecg;

    // Candidates once a second, kept with rate / 3600: n p events, variance n p (1 − p) (binomial, textbook).
    [Test]
    public void Rate_OfStuckCodes_IsTheKnob()
    {
        const int Seconds = 300_000;
        bool[] held = Held(Values(36, 0.1), Seconds * 10, 10);
        const double P = 0.01;
        Assert.That(held.Count(h => h), Is.EqualTo(Seconds * P).Within(4 * Math.Sqrt(Seconds * P * (1 - P))));
    }

    // 2 s at 10 Hz: 20 codes the same as the one before.
    [Test]
    public void Length_OfStuckCodes_IsTheKnob()
    {
        int[] runs = Delivered.Runs(Held(Values(4, 2), 3_000_000, 10));
        Assert.That(runs, Has.Length.GreaterThan(200));
        Assert.That(runs.Count(r => r == 20), Is.GreaterThan(0.98 * runs.Length));
        Assert.That(runs, Has.All.GreaterThanOrEqualTo(20));
    }

    [Test]
    public void Rate_Higher_AddsStretchesAndMovesNone()
    {
        bool[] few = Held(Values(20, 1), 500_000, 10);
        bool[] many = Held(Values(80, 1), 500_000, 10);
        Assert.That(few.Zip(many).Count(p => p.First && !p.Second), Is.Zero);
        Assert.That(many.Count(h => h), Is.GreaterThan(2 * few.Count(h => h)));
    }

    // A code at a rail goes on to say that the range was left, and no other does.
    [Test]
    public void Flag_OfStuckCodes_IsThatOfTheCodeHeld()
    {
        double[] analog = [.. Enumerable.Range(0, 200_000).Select(i => (i % 7) switch { 0 => 1e6, 3 => -1e6, _ => i % 100.0 })];
        Converted result = Converted.Of(Values(600, 1), Converted.Format(rateHz: 10), analog);
        bool[] isAtRail = [.. result.Codes.Select(c => Math.Abs(c) >= 32767)];
        Assert.That(result.Status.Select(s => s == (ushort)SampleStatus.OverRange), Is.EqualTo(isAtRail));
        Assert.That(Delivered.Runs(isAtRail).Count(r => r >= 10), Is.GreaterThan(50), "some are held at a rail");
    }

    // One converter for all slots: held at the same times. Noise of many codes: ten equal ones in a row do not come by chance.
    [Test]
    public void Channels_OfOneConverter_GetStuckTogetherAndOthersDoNot()
    {
        KeyValues values = Settings.Fine(Settings.Everything()).Set(ConversionKeys.Optics.StuckCodesPerH, 200).Set(ConversionKeys.Optics.StuckCodesS, 0.5);
        Recording recording = Recording.Of(values, 300);
        int[] red = Stuck(recording.Codes(ChannelName.Red));
        Assert.That(red, Has.Length.GreaterThan(5));
        Assert.That(Stuck(recording.Codes(ChannelName.Infrared)), Is.EqualTo(red));
        Assert.That(Stuck(recording.Codes(ChannelName.Dark)), Is.EqualTo(red));
        Assert.That(Stuck(recording.Codes(ChannelName.Ecg)), Is.Empty);
        Assert.That(Stuck(recording.Codes(ChannelName.AccelX)), Is.Empty);
    }

    private static KeyValues Values(double perH, double seconds) => new KeyValues().Set(s_keys.StuckCodesPerH, perH).Set(s_keys.StuckCodesS, seconds);

    // Which samples of a ramp repeat the code before.
    private static bool[] Held(KeyValues values, int count, int rateHz)
    {
        int[] codes = Converted.Of(values, Converted.Format(rateHz: rateHz), [.. Enumerable.Range(0, count).Select(i => i % 20_000.0)]).Codes;
        return [.. codes.Select((c, i) => i > 0 && c == codes[i - 1])];
    }

    // Where stretches of ten equal codes or more begin.
    private static int[] Stuck(int[] codes) =>
        [.. Enumerable.Range(1, codes.Length - 10).Where(i => codes[i] != codes[i - 1] && codes.Skip(i).Take(10).All(c => c == codes[i]))];
}
