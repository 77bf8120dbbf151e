// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>Truth is the body's alone: no knob of the sensor may move it.</summary>
public sealed class TruthTests
{
    private const double Seconds = 20;

    private static IEnumerable<string> Knobs => SensingKeys.All.Select(k => k.Name);

    [TestCaseSource(nameof(Knobs))]
    public void Truth_AnyKnobOfTheSensorAtEitherEnd_StaysTheSameToTheBit(string name)
    {
        var key = (NumberKey)SensingKeys.All.Single(k => k.Name == name);
        string[] expected = Recording.Of(Settings.Everything(), Seconds).TruthText(Seconds);
        Assert.That(expected, Has.Length.GreaterThan(400));
        foreach (double value in new[] { key.Minimum, key.Maximum })
        {
            string[] actual = Recording.Of(Settings.Everything().Set(key, value), Seconds).TruthText(Seconds);
            Assert.That(actual, Is.EqualTo(expected), $"{name} = {value}");
        }
    }

    [Test]
    public void SensingKeys_Names_AreUnique() =>
        Assert.That(SensingKeys.All.Select(k => k.Name), Is.Unique.And.Exactly(SensingKeys.All.Count).Items);
}
