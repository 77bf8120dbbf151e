// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Detectors;
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Sweeps;
using SensorSim.Studies.Tests.Detectors;

namespace SensorSim.Studies.Tests.Sweeps;

[TestFixture]
public sealed class SweepSessionTests
{
    private static readonly NumberKey s_answers = new()
    {
        Name = "detector.answers", Meaning = "Whether it answers.", Source = "This test.", Minimum = 0, Maximum = 1, Default = 1, IsWhole = true,
    };

    private string _root = "";

    [SetUp]
    public void MakeFolder() => _root = Directory.CreateTempSubdirectory("session-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_root, recursive: true);

    [Test]
    public void Run_WithTuning_ScoresTheChosenConstantOnTheStudysSeeds()
    {
        StudyPlan plan = Tuned();
        SweepResults results = Run("a", plan, new CancellationTokenSource());

        Assert.That(results.Tuned!.Value.Chosen.Single().Constants, Is.EqualTo(new[] { ("detector.answers", 1.0) }));
        Assert.That(results.Plan.Factors.Select(f => f.Key.Name), Is.EqualTo(new[] { "ecg_noise.muscle_snr_db" }));
        Assert.That(results.Rows.Rows, Has.Count.EqualTo(2 * 2), "levels × seeds");
        Assert.That(results.Figures[0].Pool.Figure, Is.GreaterThan(0.9), "an answering detector at 12 dB");
        Assert.That(results.Identity.OfAll, Is.EqualTo(StudyIdentity.Of(plan, [new SwitchFactory()]).OfAll));

        using var stream = new MemoryStream();
        SweepJson.Write(stream, results);
        JsonElement tuning = JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("tuning");
        Assert.That(tuning.GetProperty("chosen")[0].GetProperty("detector.answers").GetDouble(), Is.EqualTo(1));
    }

    [TestCase(3, "of 12 runs for tuning are there")]
    [TestCase(13, "going on: 12 of 12 runs for tuning are there")]
    public void Run_WithTuningInterrupted_GoesOnToTheSameResults(int after, string said)
    {
        StudyPlan plan = Tuned();
        SweepResults straight = Run("straight", plan, new CancellationTokenSource());
        Assert.That(() => Run("a", plan, new CancellationTokenSource(), after), Throws.InstanceOf<OperationCanceledException>());
        var sentences = new List<string>();
        SweepResults results = Run("a", plan, new CancellationTokenSource(), say: sentences.Add);

        Assert.That(sentences[0], Does.EndWith(said));
        Assert.That(Json(results), Is.EqualTo(Json(straight)));
        Assert.That(results.Rows.Rows.Zip(straight.Rows.Rows).All(p => RowBytesTests.Same(p.First, p.Second)));
    }

    [Test]
    public void Run_AdaptiveInterrupted_GoesOnToTheSameRows()
    {
        StudyPlan plan = SmallStudy.Plan([12, 4, -4, -12, -20], seeds: 24) with
        {
            Requirements = [SmallStudy.Requirement("r_peak_sensitivity_min", 0.9)],
            FailurePoint = new FailurePointSettings { IsAdaptive = true, Precision = 6, Resamples = 200 },
        };
        SweepResults straight = Run("straight", plan, new CancellationTokenSource());
        Assert.That(straight.Rows.Rows, Has.Count.InRange(8, (int)plan.RunCount - 1), "runs are spared");
        Assert.That(() => Run("a", plan, new CancellationTokenSource(), 5), Throws.InstanceOf<OperationCanceledException>());

        SweepResults results = Run("a", plan, new CancellationTokenSource());
        Assert.That(Json(results), Is.EqualTo(Json(straight)));
        Assert.That(results.Rows.Rows.Zip(straight.Rows.Rows).All(p => RowBytesTests.Same(p.First, p.Second)));
    }

    private SweepResults Run(string name, StudyPlan plan, CancellationTokenSource interrupt, int after = int.MaxValue, Action<string>? say = null)
    {
        IDetectorFactory[] factories = [new SwitchFactory()];
        StudyIdentity identity = StudyIdentity.Of(plan, factories);
        using SweepFolder folder = SweepFolder.Open(Path.Combine(_root, name), identity, Shard.Whole);
        int made = 0;
        var session = new SweepSession(folder, factories, 1)
        {
            Say = say,
            Progress = _ =>
            {
                if (++made == after)
                {
                    interrupt.Cancel();
                }
            },
        };
        using (interrupt)
        {
            return session.Run(plan, identity, interrupt.Token);
        }
    }

    private static byte[] Json(SweepResults results)
    {
        using var stream = new MemoryStream();
        SweepJson.Write(stream, results);
        return stream.ToArray();
    }

    /// <summary>Two levels of noise and two values of the constant; three tuning seeds, two seeds.</summary>
    private static StudyPlan Tuned()
    {
        StudyPlan plan = SmallStudy.Plan(seeds: 2);
        object[][] values = [[12.0, 0.0], [12.0, 1.0], [-6.0, 0.0], [-6.0, 1.0]];
        return plan with
        {
            Factors = [plan.Factors[0], new Factor(s_answers, [0.0, 1.0])],
            Points = [.. values.Select((v, i) => new StudyPoint(i, v))],
            Tuning = new TuningSettings([51, 52, 53]),
        };
    }

    private sealed class SwitchFactory : IDetectorFactory
    {
        public string Identity => "switch 1.0";

        public IReadOnlyList<NumberKey> Constants => [s_answers];

        public IDetector Create(IReadOnlyDictionary<string, double> constants) =>
            constants.GetValueOrDefault(s_answers.Name, 1) > 0 ? new LibraryDetector() : new TestDetector();

        public void Dispose()
        {
        }
    }
}
