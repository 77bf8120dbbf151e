// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Detectors.Boards;
using SensorSim.Detectors.Choices;
using SensorSim.Links.Frames;
using SensorSim.Signals.Detectors;
using SensorSim.Tests.Boards;

namespace SensorSim.Detectors.Tests.Boards;

/// <summary>What a board is told becomes, number by number, what the library in this process gets.</summary>
[TestFixture]
public sealed class BoardSetupTests
{
    private static readonly DetectorCalibration s_full = new()
    {
        TimeOfDayH = 7.25,
        Oxygen = [new(0.4, 100), new(0.9, 91.5), new(1.7, 71)],
        Pressure = new PressureCurve("logarithmic", [
            new CuffMeasurement(231.4, 121, 79) { SpreadMs = 3.2, RateBpm = 64, AgeDays = 1.5 },
            new CuffMeasurement(205.5, 142, 88) { SpreadMs = 2.1, RateBpm = 88, AgeDays = 1.25 }])
        {
            SystolicMmhgPerBpm = 0.11,
            DiastolicMmhgPerBpm = -0.05,
            ElasticityPerMmhg = 0.0165,
            DiastolicShare = 0.55,
            SlopeMmhgPerMs = -0.71,
            ValidDays = 30,
            ReachMmhg = 25,
        },
        Trend = new TrendSearch { FalseAlarmDays = 200, LearningDays = 10, SystolicMmhgPerBpm = 0.25, RestMarginBpm = 15 },
    };

    [Test]
    public void Items_Everything_BecomesTheSameOptions()
    {
        Dictionary<string, double> constants = LibraryConstants.All.ToDictionary(k => k.Name, k => k.Default == k.Minimum ? k.Maximum : k.Minimum);
        LibraryOptions expected = OptionsOf.Calibration(s_full);
        expected.Tuning = LibraryConstants.Of(constants);
        var items = new OptionItems();
        foreach (SetupItem item in BoardSetup.Items(s_full, constants))
        {
            items.Add(item);
        }

        LibraryOptions actual = items.Options();
        Assert.Multiple(() =>
        {
            Assert.That(actual.StartS, Is.EqualTo(expected.StartS));
            Assert.That(actual.Tuning, Is.EqualTo(expected.Tuning));
            Assert.That(actual.Pressure, Is.EqualTo(expected.Pressure));
            Assert.That(actual.Trend, Is.EqualTo(expected.Trend));
            Assert.That(actual.Oxygen.Count, Is.EqualTo(3));
            Assert.That(
                Enumerable.Range(3000, 15_000).Select(r => actual.Oxygen.MilliPercent(r)),
                Is.EqualTo(Enumerable.Range(3000, 15_000).Select(r => expected.Oxygen.MilliPercent(r))));
        });
    }

    [Test]
    public void Items_Nothing_AreNone() => Assert.That(BoardSetup.Items(null, null), Is.Empty);

    [Test]
    public void Items_EachIsThereOnce()
    {
        SetupItem[] items = BoardSetup.Items(s_full, null);
        Assert.That(items.Select(i => (i.Item, i.Index)), Is.Unique);
    }
}
