// SPDX-License-Identifier: MIT
using SensorSim.Examples.Threshold;
using SensorSim.Scenarios.Reading;
using SensorSim.Testing.Tests.Support;

namespace SensorSim.Testing.Tests;

/// <summary>What a detector is tested on: files and texts, seeds, other values, names.</summary>
[TestFixture]
public sealed class GivenScenarioTests
{
    private const string Quick = "[scenario]\nduration_s = 20\nseed = 3\n[heart]\nrate_bpm = 72\n";

    [Test]
    public void Members_GiveNewOnes_AndLeaveTheOldAsItIs()
    {
        GivenScenario rest = Given.ScenarioText(Quick);
        GivenScenario fast = rest.With("heart.rate_bpm", 120).SeedsFrom(7, 4);
        Assert.That(rest.ToString(), Is.EqualTo("scenario, seed 3"));
        Assert.That(fast.ToString(), Is.EqualTo("scenario with heart.rate_bpm = 120, seeds 7 to 10"));
        Assert.That(fast.EachSeed().Select(g => g.ToString()).ToArray(), Has.Length.EqualTo(4).And.Member("scenario with heart.rate_bpm = 120, seed 8"));
        Assert.That(rest.Seeds(1, 5).ToString(), Is.EqualTo("scenario, seeds 1, 5"));
        Assert.That(rest.Lasting(30).Scenario.DurationS, Is.EqualTo(30));
    }

    // 12 s at 72 and at 120 bpm hold 14 and 24 beats, one more or less at the edges.
    [Test]
    public void With_AnotherRate_ChangesTheBeats()
    {
        Assert.That(TruthAnswers.Scored(Given.ScenarioText(Quick), out _), Has.Length.EqualTo(13).Within(1));
        Assert.That(TruthAnswers.Scored(Given.ScenarioText(Quick).With("heart.rate_bpm", 120), out _), Has.Length.EqualTo(22).Within(1));
    }

    [Test]
    public void Mistakes_AreSentences()
    {
        GivenScenario rest = Given.ScenarioText(Quick);
        Assert.That(() => rest.With("heart.rate", 60), Throws.ArgumentException.With.Message.Contains("heart.rate is no key; the nearest is heart.rate"));
        Assert.That(() => rest.With("heart.rate_bpm", "fast"), Throws.ArgumentException.With.Message.Contains("holds no word"));
        Assert.That(() => rest.With("heart.rhythm", 1), Throws.ArgumentException.With.Message.Contains("holds no number"));
        Assert.That(() => rest.With("heart.rate_bpm", 1e9), Throws.InstanceOf<ArgumentOutOfRangeException>());
        Assert.That(() => rest.With("scenario.seed", 4), Throws.ArgumentException.With.Message.Contains("Seed or Seeds"));
        Assert.That(() => rest.Seeds(1, 1), Throws.ArgumentException.With.Message.Contains("each once"));
        Assert.That(() => Given.Scenario("no/such.toml"), Throws.TypeOf<FileNotFoundException>());
        Assert.That(() => Given.ScenarioText("[hart]\nrate_bpm = 60\n"), Throws.TypeOf<ScenarioException>().With.Message.Contains("line 1"));
        Assert.That(
            () => Finds.RPeaks.On(rest.Lasting(9)).ApplyTo(UnderTest.Class<ThresholdDetector>()), Throws.ArgumentException.With.Message.Contains("nothing of it is scored"));
        Assert.That(() => Meets.ItsRequirements.On(rest), Throws.ArgumentException.With.Message.Contains("requires nothing"));
    }

    [Test]
    public void ByHand_OfAScenarioInTheTest_WritesAFileThatMakesTheSameRun()
    {
        GivenScenario noisy = Given.ScenarioText(Quick, "noisy").With("ecg_amplifier.white_noise_uv_rms", 400).Seeds(4, 9);
        using UnderTest detector = UnderTest.Class<ThresholdDetector>();
        ScoredRuns runs = noisy.Run(detector);
        string message = Messages.OfFailure(runs, Finds.RPeaks);
        string line = message.Split('\n').Single(l => l.Contains("By hand:", StringComparison.Ordinal));
        string path = line.Split(' ').Single(w => w.EndsWith(".toml", StringComparison.Ordinal));
        ulong seed = ulong.Parse(line.Split("--seed ")[1].Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);

        ScoredRun again = Given.Scenario(path).Seed(seed).Run(detector).Runs[0];
        ScoredRun first = runs.Runs.Single(r => r.Seed == seed);
        Assert.That(again.Outcome.MarkCount, Is.EqualTo(first.Outcome.MarkCount));
        Assert.That(again.Outcome.Report!.Scores.Select(s => (s.Counts, s.TimingBiasMs)), Is.EqualTo(first.Outcome.Report!.Scores.Select(s => (s.Counts, s.TimingBiasMs))));
    }

    [Test]
    public void Seeds_WorstOneComesFirstAndIsTheOneToLookAt()
    {
        GivenScenario noisy = Given.ScenarioText(Quick).With("ecg_amplifier.white_noise_uv_rms", 250).SeedsFrom(1, 6);
        using UnderTest detector = UnderTest.Class<ThresholdDetector>();
        ScoredRuns runs = noisy.Run(detector);
        var scores = runs.Runs.ToDictionary(r => r.Seed, r => r.Outcome.Report!.Scores.First(s => s.Kind == Signals.Marks.MarkKind.RPeak).PositivePredictivity);
        double worst = scores.Values.Min()!.Value;
        Assert.That(scores.Values.Max(), Is.GreaterThan(worst), "the seeds must differ for this test");
        string message = Messages.OfFailure(runs, Finds.RPeaks.PositivePredictivity.AtLeast(1));
        double seed = Messages.Numbers(message, @"worst first: (\d+) \(")[0];
        Assert.That(scores[(ulong)seed], Is.EqualTo(worst));
        Assert.That(message, Does.Contain(FormattableString.Invariant($"--seed {seed} ")));
    }

    [Test]
    public void EverySeed_IsStricterThanPooled()
    {
        GivenScenario noisy = Given.ScenarioText(Quick).With("ecg_amplifier.white_noise_uv_rms", 250).SeedsFrom(1, 6);
        using UnderTest detector = UnderTest.Class<ThresholdDetector>();
        ScoredRuns runs = noisy.Run(detector);
        double[] each = [.. runs.Runs.Select(r => r.Outcome.Report!.Scores.First(s => s.Kind == Signals.Marks.MarkKind.RPeak).PositivePredictivity!.Value)];
        double limit = each.Min() + 1e-6;
        Assert.That(runs, Finds.RPeaks.PositivePredictivity.AtLeast(limit));
        Assert.That(runs, !Finds.RPeaks.WithEverySeed.PositivePredictivity.AtLeast(limit));
        Assert.That(runs, Finds.RPeaks.WithEverySeed.PositivePredictivity.AtLeast(limit - 2e-6));
    }

    [ScenarioCases("waveforms/scenarios/rhythms/sinus-*.toml", FirstSeed = 5, SeedCount = 2, IsSeedATest = true)]
    public void ScenarioCases_GiveATestForEachFileAndSeed(GivenScenario given)
    {
        Assert.That(given.SeedList, Has.Count.EqualTo(1));
        Assert.That(given.SeedList[0], Is.AnyOf(5UL, 6UL));
        Assert.That(TestContext.CurrentContext.Test.Name, Does.Contain("sinus-").And.Contain($"seed {given.SeedList[0]}"));
    }

    [Test]
    public void ScenarioCases_WithoutAFile_MakeATestThatSaysSo()
    {
        NUnit.Framework.Interfaces.IMethodInfo method = new NUnit.Framework.Internal.MethodWrapper(
            typeof(GivenScenarioTests), nameof(ScenarioCases_GiveATestForEachFileAndSeed));
        var made = new ScenarioCasesAttribute("gone/*.toml").BuildFrom(method, null).ToArray();
        Assert.That(made, Has.Length.EqualTo(1));
        Assert.That(made[0].RunState, Is.EqualTo(NUnit.Framework.Interfaces.RunState.NotRunnable));
        Assert.That(made[0].Properties.Get("_SKIPREASON"), Does.Contain("gone"));
    }

    [TestCase("waveforms/scenarios")]
    [TestCase("README.md")]
    public void ScenarioCases_OfWhatIsNoScenario_MakeATestThatNamesIt(string path)
    {
        NUnit.Framework.Interfaces.IMethodInfo method = new NUnit.Framework.Internal.MethodWrapper(
            typeof(GivenScenarioTests), nameof(ScenarioCases_GiveATestForEachFileAndSeed));
        var made = new ScenarioCasesAttribute(path).BuildFrom(method, null).ToArray();
        Assert.That(made.Single().RunState, Is.EqualTo(NUnit.Framework.Interfaces.RunState.NotRunnable));
        Assert.That(made[0].Properties.Get("_SKIPREASON"), Does.Contain(path));
    }

    [Test]
    public void MissingFile_IsSaidWithThePlacesThatWereLookedAt()
    {
        string gone = Path.Combine(Path.GetTempPath(), "sensorsim-gone", "rest.toml");
        Assert.That(() => Given.Scenario(gone), Throws.TypeOf<FileNotFoundException>().With.Message.EqualTo($"{gone}: there is no such file or folder"));

        string own = Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory);
        string message = Assert.Throws<FileNotFoundException>(() => Given.Scenario("gone/rest.toml"))!.Message;
        Assert.That(message, Does.StartWith($"gone/rest.toml: there is no such file or folder below {own} and the folders above it"));
        Assert.That(message.Split(own), Has.Length.EqualTo(2), "named once");
    }
}
