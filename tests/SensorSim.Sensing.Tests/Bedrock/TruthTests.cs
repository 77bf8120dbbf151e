// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>Truth is the body's alone: no knob of the sensor may move it.</summary>
public sealed class TruthTests
{
    private const double Seconds = 20;

    private static IEnumerable<string> Knobs => SensingKeys.All.Select(k => k.Name);

    // Green light has rows only where there is a green slot; those of the other channels do not change for that.
    [TestCaseSource(nameof(Knobs))]
    public void Truth_AnyKnobOfTheSensorAnywhere_StaysTheSameToTheBit(string name)
    {
        KeyValues values = Settings.Everything().Set(OpticsKeys.GreenNa, 900);
        string[] expected = Recording.Of(values, Seconds).TruthText(Seconds);
        Assert.That(expected, Has.Length.GreaterThan(600));
        foreach (KeyValues other in Settings.AtEveryEnd(values, SensingKeys.All.Single(k => k.Name == name)))
        {
            Recording recording = Recording.Of(other, Seconds);
            bool hasGreen = recording.Format.IndexOf(ChannelName.Green) >= 0;
            Assert.That(
                recording.TruthText(Seconds),
                Is.EqualTo(expected.Where(row => hasGreen || !row.StartsWith("Green", StringComparison.Ordinal))),
                name);
        }
    }

    [Test]
    public void SensingKeys_Names_AreUnique() =>
        Assert.That(SensingKeys.All.Select(k => k.Name), Is.Unique.And.Exactly(SensingKeys.All.Count).Items);
}
