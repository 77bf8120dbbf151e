// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Tests.Streams;

public sealed class ChannelNamesTests
{
    [Test]
    public void TryParse_EveryText_RoundTrips()
    {
        ChannelName[] names = Enum.GetValues<ChannelName>();
        Assert.That(ChannelNames.All, Has.Count.EqualTo(names.Length).And.Unique);
        foreach (ChannelName name in names)
        {
            Assert.That(ChannelNames.TryParse(name.Text(), out ChannelName parsed), Is.True);
            Assert.That(parsed, Is.EqualTo(name));
        }
    }

    // The names that files use: design of the project.
    [TestCase(ChannelName.Ecg, "ecg", "mV")]
    [TestCase(ChannelName.Red, "red", "nA")]
    [TestCase(ChannelName.Infrared, "infrared", "nA")]
    [TestCase(ChannelName.Green, "green", "nA")]
    [TestCase(ChannelName.Dark, "dark", "nA")]
    [TestCase(ChannelName.AccelX, "accel_x", "g")]
    [TestCase(ChannelName.AccelY, "accel_y", "g")]
    [TestCase(ChannelName.AccelZ, "accel_z", "g")]
    public void Text_OfAName_IsTheFileForm(ChannelName name, string text, string unit) =>
        Assert.That((name.Text(), name.Unit()), Is.EqualTo((text, unit)));

    [TestCase("ECG")]
    [TestCase("")]
    [TestCase("accel_w")]
    [TestCase("red ")]
    public void TryParse_UnknownText_IsFalse(string text) => Assert.That(ChannelNames.TryParse(text, out _), Is.False);
}
