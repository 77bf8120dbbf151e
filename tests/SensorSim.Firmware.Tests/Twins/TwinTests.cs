// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>The C twin gives the answers of the C# library: every field of every answer, for every stream.</summary>
[TestFixture]
public sealed class TwinTests
{
    private const int ScenarioS = 60;

    private const string Fibrillating = """
        [scenario]
        title = "fibrillation that ends"
        duration_s = 420
        seed = 1

        [heart]
        rhythm = "atrial_fibrillation"
        rate_bpm = 92

        [[change]]
        at_s = 200
        key = "heart.rhythm"
        step_to = "sinus"
        """;

    private readonly Dictionary<AnswerKind, int> _kinds = [];
    private TwinLibrary _twin = null!;

    [OneTimeSetUp]
    public void Build() => _twin = new TwinLibrary(TwinBuild.Make("gcc", "libtwin.so", "-O2", "-shared", "-fPIC"));

    [OneTimeTearDown]
    public void Unload() => _twin.Dispose();

    [Test]
    public void State_InC_IsNoLargerThanTheContractAllows() => Assert.That(_twin.StateBytes, Is.LessThanOrEqualTo(8192));

    [Test]
    [Order(1)]
    public void Answers_OfScenario_AreTheSame([ValueSource(typeof(TwinCases), nameof(TwinCases.Scenarios))] string path)
    {
        Both both = TwinStreams.Scenario(path, ScenarioS, TwinCases.Options[path.Length % TwinCases.Options.Length], _twin);
        Check(both, path);
        Assert.That(both.IsRefused || both.Count > 0, Is.True, "nothing was compared");
    }

    [Test]
    [Order(1)]
    public void Answers_OfLongScenario_AreTheSame([Values(1, 2)] int options) =>
        Check(TwinStreams.Scenario("waveforms/scenarios/rest-finger-10min.toml", 600, TwinCases.Options[options], _twin), "ten minutes");

    [Test]
    [Order(1)]
    public void Answers_OfRhythmThatChanges_AreTheSame() => Check(TwinStreams.Text(Fibrillating, TwinCases.Options[0], _twin), "fibrillation that ends");

    [Test]
    [Order(1)]
    public void Answers_OfHostileStream_AreTheSame([Range(1, 60)] int seed) => Hostile(seed, 90, 0);

    [Test]
    public void Answers_AfterHoursOfSilence_AreTheSame([Values(9001, 9002)] int seed) => Hostile(seed, 2 * 3600, 3600);

    [Test]
    [Category("Slow")]
    public void Answers_OfManyHostileStreams_AreTheSame()
    {
        for (int seed = 10_000; seed < 11_000; seed++)
        {
            Hostile(seed, seed % 50 == 0 ? 4 * 3600 : 240, seed % 50 == 0 ? 3 * 3600 : 0);
        }
    }

    [Test]
    [Order(2)]
    public void Streams_TogetherBringEveryKindOfAnswer() => Assert.That(_kinds.Keys, Is.EquivalentTo(Enum.GetValues<AnswerKind>()), "of what is missing nothing was compared");

    private void Hostile(int seed, int durationS, int silenceS) =>
        Check(TwinStreams.Hostile(seed, durationS, silenceS, TwinCases.Options[seed % TwinCases.Options.Length], _twin), FormattableString.Invariant($"seed {seed}"));

    private void Check(Both both, string name)
    {
        Assert.That(both.Difference, Is.Null, name);
        foreach ((AnswerKind kind, int count) in both.Kinds)
        {
            _kinds[kind] = _kinds.GetValueOrDefault(kind) + count;
        }
    }
}
