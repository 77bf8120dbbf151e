// SPDX-License-Identifier: MIT
namespace BandApp.Tests;

/// <summary>What the app promises of its beats.</summary>
[TestFixture]
public sealed class BeatTests
{
    private readonly UnderTest _app = UnderTest.Class<BeatFinderDetector>();

    [OneTimeTearDown]
    public void LetGo() => _app.Dispose();

    // One scenario, twenty seeds: what counts is the share over all of them, and the whole 95 % interval of it.
    [Test]
    public void AtDeskEveryBeatIsFound() =>
        Assert.That(_app, Finds.RPeaks.Sensitivity.CertainlyAtLeast(0.99).PositivePredictivity.CertainlyAtLeast(0.99).On(Desk.SeedsFrom(1, 20)));

    // The same runs for several questions.
    [Test]
    public void AtDeskBeatsAreOnTimeAndPrompt()
    {
        ScoredRuns runs = Desk.Run(_app);
        Assert.That(runs, Finds.RPeaks.TimingSpreadMs.AtMost(8));
        Assert.That(runs, Finds.RPeaks.LatencyP95Ms.AtMost(300));
    }

    // Every scenario of a folder, every seed a test of its own; the scenario says itself what is required.
    [ScenarioCases("scenarios/*.toml", SeedCount = 3, IsSeedATest = true)]
    public void RequirementsOfTheScenariosAreMet(GivenScenario given) => Assert.That(_app, Meets.ItsRequirements.On(given));

    // Other values of a key: how much noise may there be?
    [TestCase(10)]
    [TestCase(30)]
    public void NoiseUpToThirtyMicrovoltsIsBorne(double microvolts) =>
        Assert.That(_app, Finds.RPeaks.Sensitivity.AtLeast(0.99).On(Desk.With("ecg_amplifier.white_noise_uv_rms", microvolts).SeedsFrom(1, 5)));

    // The app is no miracle: in noise as large as the beats it must not look perfect, or the test would be worth nothing.
    [Test]
    public void HugeNoiseIsNoticed() =>
        Assert.That(_app, !Finds.RPeaks.PositivePredictivity.AtLeast(0.9).On(Desk.With("ecg_amplifier.white_noise_uv_rms", 500)));

    [Test]
    public void BlocksOfAnyLengthGiveTheSameBeats() => Assert.That(_app, Keeps.TheContract.On(Given.Scenario("scenarios/lossy-radio.toml")));

    private static GivenScenario Desk => Given.Scenario("scenarios/at-desk.toml");
}
