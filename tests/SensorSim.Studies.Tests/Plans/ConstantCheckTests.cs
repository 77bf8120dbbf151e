// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Tests.Plans;

/// <summary>Constants are held against what the detectors have.</summary>
[TestFixture]
public sealed class ConstantCheckTests
{
    private StudyFolder _folder = null!;

    [SetUp]
    public void SetUp() => _folder = new StudyFolder();

    [TearDown]
    public void TearDown() => _folder.Dispose();

    [TestCase("values = [1, 2]", "a.toml, line 4, column 7: detector.treshold is no constant of the detector \"ours\"; the nearest is detector.threshold", "treshold")]
    [TestCase("values = [1, 20]", "a.toml, line 4, column 7: detector.threshold = 20 is outside of 0 to 10 ms", "threshold")]
    [TestCase("values = [1, 2.5]", "a.toml, line 4, column 7: detector.window = 2.5 must be a whole number, 1 to 9 ms", "window")]
    public void CheckConstants_Varied_IsTold(string values, string expected, string name)
    {
        StudyPlan plan = _folder.Read($"[[vary]]\nkey = \"detector.{name}\"\n{values}\n");
        Assert.That(Message(plan, Two()), Is.EqualTo(expected));
    }

    [TestCase("threshhold = 1", "a.toml, line 7, column 28: detector.threshhold is no constant of the detector \"second\"; the nearest is detector.threshold")]
    [TestCase("threshold = -1", "a.toml, line 7, column 27: detector.threshold = -1 is outside of 0 to 10 ms")]
    public void CheckConstants_OfADetector_IsTold(string constant, string expected)
    {
        StudyPlan plan = _folder.Read($"[[detector]]\nlabel = \"first\"\n[[detector]]\nlabel = \"second\"\nconstants = {{ {constant} }}\n");
        Assert.That(Message(plan, Two(), Two()), Is.EqualTo(expected));
    }

    [Test]
    public void CheckConstants_ConstantThatOurLibraryLacks_NamesTheNearest()
    {
        StudyPlan plan = _folder.Read("[[vary]]\nkey = \"detector.beat_refractory\"\nvalues = [1]\n");
        using var factory = new LibraryFactory();
        Assert.That(Message(plan, factory), Does.EndWith("detector.beat_refractory is no constant of the detector \"ours\"; the nearest is detector.beat_refractory_ms"));
    }

    [Test]
    public void CheckConstants_OneDetectorWithout_IsTold()
    {
        StudyPlan plan = _folder.Read("[[vary]]\nkey = \"detector.window\"\nvalues = [1]\n[[detector]]\nlabel = \"a\"\n[[detector]]\nlabel = \"b\"\n");
        Assert.That(
            Message(plan, Two(), new KnobFactory("other", KnobFactory.Knob("detector.threshold", 0, 1))),
            Is.EqualTo("a.toml, line 4, column 7: detector.window is no constant of the detector \"b\"; the nearest is detector.threshold"));
    }

    [Test]
    public void CheckConstants_Sound_GivesTheDetectorsKeys()
    {
        StudyPlan plan = _folder.Read("[[vary]]\nkey = \"heart.rate_bpm\"\nvalues = [60, 70]\n[[vary]]\nkey = \"detector.threshold\"\nvalues = [0.5, 2]\n");
        StudyPlan known = PlanReader.CheckConstants(plan, [Two()]);

        Assert.That(plan.Factors[1].Key.Unit, Is.Empty);
        Assert.That((known.Factors[1].Key.Unit, ((NumberKey)known.Factors[1].Key).Maximum), Is.EqualTo(("ms", 10.0)));
        Assert.That(known.Factors[0], Is.SameAs(plan.Factors[0]));
        Assert.That(known.Points, Is.SameAs(plan.Points));
    }

    [Test]
    public void CheckConstants_WholeConstantInAHypercube_IsRounded()
    {
        StudyPlan plan = _folder.Read("arrangement = \"latin_hypercube\"\npoint_count = 90\n[[vary]]\nkey = \"detector.window\"\nfrom = 1\nto = 9\n");
        StudyPlan known = PlanReader.CheckConstants(plan, [Two()]);

        Assert.That(known.Points.GroupBy(p => (double)p.Values[0]).Select(g => (g.Key, g.Count())), Is.EquivalentTo(Enumerable.Range(1, 9).Select(i => ((double)i, 10))));
    }

    [Test]
    public void CheckConstants_NothingOfADetector_IsThePlanItself()
    {
        StudyPlan plan = _folder.Read("[[vary]]\nkey = \"heart.rate_bpm\"\nvalues = [60, 70]\n");
        Assert.That(PlanReader.CheckConstants(plan, [Two()]), Is.SameAs(plan));
    }

    private static KnobFactory Two() => new("two", KnobFactory.Knob("detector.threshold", 0, 10), KnobFactory.Knob("detector.window", 1, 9, isWhole: true));

    private string Message(StudyPlan plan, params Signals.Detectors.IDetectorFactory[] factories)
    {
        var e = Assert.Throws<ScenarioException>(() => PlanReader.CheckConstants(plan, factories));
        return _folder.Without(e!.Message);
    }
}
