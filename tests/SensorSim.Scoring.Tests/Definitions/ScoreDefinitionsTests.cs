// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Definitions;
using SensorSim.Scoring.Matching;
using SensorSim.Scoring.Pressure;
using SensorSim.Scoring.Readings;
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Tests.Definitions;

/// <summary>The sentences say what the code does.</summary>
public class ScoreDefinitionsTests
{
    [Test]
    public void Wrong_Limits_AreThoseOfTheGate()
    {
        string text = Text(ScoreDefinitions.Readings, "wrong");
        Assert.That(text, Does.Contain($"{ReadingGate.LargestGoodError(MarkKind.HeartRateBpm, 0):0} bpm and {ReadingGate.LargestGoodError(MarkKind.HeartRateBpm, 100):0} %"));
        Assert.That(text, Does.Contain($"{ReadingGate.LargestGoodError(MarkKind.ArrivalTimeMs, 0):0} ms of arrival"));
        Assert.That(text, Does.Contain($"{ReadingGate.LargestGoodError(MarkKind.Spo2Percent, 0):0} points of saturation"));
        Assert.That(text, Does.Contain($"{ReadingGate.LargestGoodError(MarkKind.SystolicMmhg, 0):0} mmHg"));
        Assert.That(text, Does.Contain($"{ReadingGate.LargestGoodError(MarkKind.RespirationRateBpm, 0):0} breaths a minute"));
        Assert.That(text, Does.Contain(FormattableString.Invariant($"{ReadingGate.LargestGoodError(MarkKind.PerfusionIndexPercent, 0):0.00} points")));
    }

    [Test]
    public void Times_AreThoseOfTheCode()
    {
        Assert.That(Text(ScoreDefinitions.Readings, "available_share"), Does.Contain($"stands for {ReadingCoverage.ValidNs / 1_000_000_000} s"));
        Assert.That(Text(ScoreDefinitions.MoreOfEvents, "silent_s"), Does.Contain($"more than {SilenceTally.LongestPauseNs / 1_000_000_000} s"));
        Assert.That(Text(ScoreDefinitions.Rhythm, "rhythm"), Does.Contain($"episodes of {Scoring.Rhythm.EpisodeTally.ShortestNs / 1_000_000_000} s"));
    }

    [Test]
    public void Pressure_Limits_AreThoseOfTheCode()
    {
        Assert.That(Text(ScoreDefinitions.Agreement, "criterion_1"), Does.Contain($"|mean| ≤ {PressureCriteria.MeanLimitMmhg} mmHg and SD ≤ {PressureCriteria.SdLimitMmhg} mmHg"));
        Assert.That(Text(ScoreDefinitions.Agreement, "criterion_2"), Does.Contain($"{SubjectMeanLimit.Probability * 100:0} % of them within {SubjectMeanLimit.TolerableMmhg} mmHg"));
    }

    [Test]
    public void All_Sentences_AreShortAndHaveAKeyOnce()
    {
        ScoreDefinition[] all = [.. ScoreDefinitions.OfRecord, .. ScoreDefinitions.Agreement];
        Assert.That(all.Select(d => d.Key), Is.Unique);
        Assert.That(all.Where(d => d.Text.Length > 300 || d.Text.EndsWith('.') || d.Text.Contains('\n', StringComparison.Ordinal)), Is.Empty);
    }

    private static string Text(IEnumerable<ScoreDefinition> definitions, string key) => definitions.Single(d => d.Key == key).Text;
}
