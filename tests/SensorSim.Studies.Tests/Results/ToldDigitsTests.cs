// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Tests.Results;

/// <summary>Digits by the width of the interval: two of them significant, as is common practice for an uncertainty.</summary>
[TestFixture]
public sealed class ToldDigitsTests
{
    [TestCase(-0.51318, -0.74551, -0.29404, "-0.51", "-0.75 to -0.29")]
    [TestCase(1.55226, 1.29608, 1.82996, "1.55", "1.30 to 1.83")]
    [TestCase(-1.1385E-05, -9.8945E-05, 0.00010317, "-0.00001", "-0.00010 to 0.00010")]
    [TestCase(123.456, 100, 180, "123", "100 to 180")]
    [TestCase(1234.6, 1200, 1400, "1235", "1200 to 1400", Description = "no places before the point are rounded away")]
    [TestCase(0.0086546, 0.00019823, 0.020707, "0.0087", "0.0002 to 0.0207", Description = "an end beside 0 does not read as 0")]
    [TestCase(-0.0086546, -0.020707, -0.00019823, "-0.0087", "-0.0207 to -0.0002")]
    [TestCase(-0.001, -0.04, 0.03, "-0.001", "-0.040 to 0.030")]
    [TestCase(-0.0001, -0.4, 0.3, "0.00", "-0.40 to 0.30", Description = "no minus before zeros")]
    [TestCase(0, 0, 0, "0", "0 to 0")]
    [TestCase(0.98722, 0.98722, 0.98722, "0.98722", "0.98722 to 0.98722")]
    [TestCase(-3.77816, double.NegativeInfinity, -3.73737, "-3.778", "-inf to -3.737")]
    public void Text_ValueAndInterval_HaveTheDigitsOfItsWidth(double value, double low, double high, string expected, string range)
    {
        var interval = new Interval(low, high);
        int? decimals = ToldDigits.Decimals(value, interval);

        Assert.That((ToldDigits.Text(value, decimals), ToldDigits.Text(interval, decimals)), Is.EqualTo((expected, range)));
    }

    [Test]
    public void Text_NothingKnown_IsADashOrFiveDigits()
    {
        Assert.That(ToldDigits.Decimals(1, null), Is.Null);
        Assert.That(ToldDigits.Text((double?)null, 2), Is.EqualTo("-"));
        Assert.That(ToldDigits.Text((Interval?)null, 2), Is.EqualTo("-"));
        Assert.That(ToldDigits.Text(0.1234567, null), Is.EqualTo("0.12346"));
    }

    // Wilson's interval of 459 of 462 goes from 0.981 to 0.998: 0.017 wide, so three decimals mean something. Where 0.9935 would read as if it met a limit that it does not, it has one more.
    [TestCase(459, 0.99, "0.994")]
    [TestCase(459, 0.9936, "0.9935")]
    [TestCase(375, 0.99, "0.812")]
    [TestCase(462, 0.99, "1.0000")]
    public void ToldFigure_SharesOfEvents_HaveTheDigitsThatMeanSomething(int matched, double limit, string expected)
    {
        RequirementDefinition definition = RequirementKeys.All.First(r => r.Key.Key == "r_peak_sensitivity_min");
        var pool = new RunPool(definition, ChannelName.Ecg);
        pool.Add(FailurePoints.KnownDetector.RowOf(0, new DetectionCounts(matched, 462 - matched, 0)));
        Assert.That(new PointFigure(new RequirementOnRow(definition, limit, ChannelName.Ecg), 0, 0, pool).ToldFigure, Is.EqualTo(expected));
    }

    [TestCase(0, "0 runs")]
    [TestCase(1, "1 run")]
    [TestCase(2, "2 runs")]
    public void Plural_Of_HasAnSUnlessOne(long count, string expected) => Assert.That(Plural.Of(count, "run"), Is.EqualTo(expected));
}
