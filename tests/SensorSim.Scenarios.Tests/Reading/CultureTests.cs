// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Reading and messages do not depend on the user's language.</summary>
[TestFixture]
public sealed class CultureTests
{
    private const string Right = "[scenario]\nduration_s = 60.5\n[pulse]\narrival_ms = 200.25\n";
    private const string Wrong = "[pulse]\narrival_ms = 4000.5\n[MOVEMENT]\n[optics]\nINTEGRATION_us = 1.5\n";

    [TestCase("de-DE")]
    [TestCase("tr-TR")]
    [TestCase("ar-SA")]
    public void ReadText_AnyCulture_SameValuesAndMessages(string culture)
    {
        string expected = string.Join('\n', Mistaken.In(Wrong));
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo(culture);

            Assert.That(ScenarioReader.ReadText(Right, "a").DurationS, Is.EqualTo(60.5));
            Assert.That(string.Join('\n', Mistaken.In(Wrong)), Is.EqualTo(expected));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
