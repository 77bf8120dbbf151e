// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Electrodes;

public sealed class EcgChannelTests
{
    // Truth + declared delay = device time: the R peak of finely sampled codes, by a fitted polynomial.
    [Test]
    public void DeclaredDelayNs_AddedToTruth_IsWhereRPeaks()
    {
        Recording recording = Recording.Of(Settings.Fine().Set(EcgAmplifierKeys.RateHz, 2000), 60);
        double[] ecg = recording.Physical(ChannelName.Ecg);
        double delay = recording.Channel(ChannelName.Ecg).DeclaredDelayNs * 1e-9;
        TruthEvent[] peaks = [.. recording.Truth.Where(t => t.Kind == MarkKind.RPeak && t.TimeNs > 200_000_000 && t.TimeNs < 59_000_000_000)];
        Assert.That(peaks, Has.Length.GreaterThan(55));
        foreach (TruthEvent peak in peaks)
        {
            double expected = (peak.TimeNs * 1e-9) + delay;
            Assert.That(Measure.ExtremumSeconds(ecg, 2000, expected, 0.006), Is.EqualTo(expected).Within(10e-6));
            Assert.That(ecg[(int)Math.Round(expected * 2000)], Is.EqualTo(peak.Value).Within(0.002), "height [mV]");
        }
    }

    // Full scale of 0.5 mV against an R wave of 1 mV: what a wide converter shows beyond the rails is cut and flagged, nothing else is.
    [Test]
    public void Status_OfAnEcgBeyondTheRails_IsOverRangeExactlyThere()
    {
        KeyValues values = new KeyValues().Set(EcgAmplifierKeys.BreathingBaselineMv, 0.2);
        Recording wide = Recording.Of(values.Copy().Set(EcgAmplifierKeys.FullScaleMv, 8).Set(EcgAmplifierKeys.Bits, 20), 30);
        Recording narrow = Recording.Of(values.Copy().Set(EcgAmplifierKeys.FullScaleMv, 0.5).Set(EcgAmplifierKeys.Bits, 16), 30);
        int[] expected = wide.Codes(ChannelName.Ecg);
        int[] codes = narrow.Codes(ChannelName.Ecg);
        ushort[] status = narrow.Status(ChannelName.Ecg);
        Assert.That(status.Count(s => s != 0), Is.InRange(100, 3000));
        for (int i = 0; i < codes.Length; i++)
        {
            // Both have the same step: 16 mV / 2^20 = 1 mV / 2^16.
            bool isOver = expected[i] is > 32767 or < -32768;
            Assert.That(codes[i], Is.EqualTo(Math.Clamp(expected[i], -32768, 32767)));
            Assert.That(status[i], Is.EqualTo(isOver ? (int)SampleStatus.OverRange : 0));
        }
    }

    [Test]
    public void Step_OfTheConverter_IsTwiceFullScaleOverTwoToTheBits()
    {
        ChannelFormat format = Recording.Of(new KeyValues().Set(EcgKeys.RMv, 1), 1).Channel(ChannelName.Ecg);
        Assert.That(format.UnitPerCode, Is.EqualTo(10.0 / 65536));
        Assert.That((format.MinimumCode, format.MaximumCode), Is.EqualTo((-32768, 32767)));
    }
}
