// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Examples.Threshold;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Testing.Tests.Support;
using SensorSim.Tests.Shared;

namespace SensorSim.Testing.Tests;

/// <summary>A detector in each of its forms.</summary>
/// <remarks>docs/examples/c-detector promises of the example at rest: 56 beats, none missed, none extra, 14 ms late; C# and C give the same.</remarks>
[TestFixture]
public sealed class DetectorFormTests
{
    private readonly GivenScenario _rest = Given.Scenario("waveforms/scenarios/rest-finger.toml");
    private string _folder = "";

    [OneTimeSetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("sensorsim-testing-").FullName;

    [OneTimeTearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void Class_OfTheExample_IsAsItsPageSays() => ExpectTheExample(UnderTest.Class<ThresholdDetector>());

    [TestCase(false)]
    [TestCase(true)]
    public void CLibrary_OfTheExample_IsAsItsPageSays(bool isInProcess)
    {
        string library = CCompiler.Library(CCompiler.Example, Path.Combine(_folder, $"threshold-{isInProcess}.so"));
        ExpectTheExample(UnderTest.CLibrary(library, isInProcess));
    }

    [Test]
    public void Assembly_WithSeveralClasses_TakesTheOneThatIsNamed() =>
        ExpectTheExample(UnderTest.Assembly("SensorSim.Testing.Tests.dll", "SensorSim.Examples.Threshold.ThresholdDetector"));

    [Test]
    public void Program_OfTheExample_FindsTheBeats()
    {
        using UnderTest program = UnderTest.Program($"python3 {TestFile.Find("docs/examples/process/python/threshold_detector.py")}");
        Assert.That(program, Finds.RPeaks.On(_rest.Lasting(20)));
    }

    [Test]
    public void Library_OfThisProject_MeetsTheScenariosRequirements()
    {
        using UnderTest library = UnderTest.Library();
        ScoredRuns runs = _rest.SeedsFrom(1, 3).Run(library);
        Assert.That(runs, Meets.ItsRequirements);
        Assert.That(runs, Finds.PulseFeet.WithEverySeed.Sensitivity.AtLeast(1));
        Assert.That(runs, Reads.HeartRate.WrongShare.AtMost(0).AvailableShare.AtLeast(0.9).FirstReadingS.AtMost(20));
        Assert.That(runs, Reads.ArrivalTime.Bias.AtMost(3).Spread.AtMost(4));
        Assert.That(runs, Reads.PulseRate.WrongShare.AtMost(0).AvailableShare.AtLeast(0.5));

        // ISO 80601-2-61 asks of a pulse oximeter a root mean square of at most 4 % (from memory); at rest half of it.
        Assert.That(runs, Reads.OxygenSaturation.WrongShare.AtMost(0).RmsError.AtMost(2).AvailableShare.AtLeast(0.5));
    }

    // A name that asked for a row which nobody has could not be met by anybody.
    [Test]
    public void EveryRowThatHasAName_IsInTruthAndInTheAnswersOfTheLibrary()
    {
        using UnderTest library = UnderTest.Library();
        ScoredRuns runs = _rest.Run(library);
        foreach (EventConstraint found in new[] { Finds.RPeaks, Finds.PulseFeet, Finds.SystolicPeaks })
        {
            double[] counts = Messages.Numbers(Messages.OfFailure(runs, found.Sensitivity.AtLeast(0).TimingSpreadMs.AtMost(0)), @"(\d+) of (\d+) found");
            Assert.That(counts[1], Is.GreaterThan(50), found.Description);
        }

        foreach (ReadingConstraint read in new[] { Reads.HeartRate, Reads.PulseRate, Reads.ArrivalTime, Reads.OxygenSaturation })
        {
            double[] counts = Messages.Numbers(Messages.OfFailure(runs, read.WrongShare.AtMost(1).RmsError.AtMost(0)), @"(\d+) wrong of (\d+) judged");
            Assert.That(counts, Has.ItemAt(0).Zero.And.ItemAt(1).GreaterThan(10), read.Description);
        }
    }

    [Test]
    public void ADetectorAFactoryOrAFunction_MayBeHandedOver()
    {
        using var detector = new ThresholdDetector();
        Assert.That(detector, Finds.RPeaks.On(_rest));
        Assert.That(() => new ThresholdDetector(), Finds.RPeaks.On(_rest));
        using var factory = new SensorSim.Detectors.Choices.LibraryFactory();
        Assert.That(factory, Finds.RPeaks.On(_rest));
    }

    [Test]
    public void Detector_HandedOver_IsStartedForEverySeedAndNotDisposedOf()
    {
        using var detector = new CountedDetector();
        Assert.That(detector, Finds.RPeaks.On(_rest.Lasting(20).SeedsFrom(1, 4)));
        Assert.That((detector.Starts, detector.IsDisposed), Is.EqualTo((4, false)));
    }

    [Test]
    public void Function_HandedOver_MakesOneForEverySeed()
    {
        CountedDetector.Made = 0;
        Assert.That(() => new CountedDetector(), Finds.RPeaks.On(_rest.Lasting(20).SeedsFrom(1, 4)));
        Assert.That(CountedDetector.Made, Is.EqualTo(5), "one more to hear its name");
    }

    [Test]
    public void AnswersInAFile_AreScoredOnTheirSeed()
    {
        string path = Path.Combine(_folder, "answers.csv");
        long[] beats = TruthAnswers.Scored(_rest.Seed(5), out long delayNs);
        File.WriteAllLines(path, ["channel,kind,time_ns", .. beats.Select(t => FormattableString.Invariant($"ecg,r_peak,{t + delayNs}"))]);
        Assert.That(UnderTest.Answers(path), Finds.RPeaks.On(_rest.Seed(5)));
        Assert.That(UnderTest.Answers(path), !Finds.RPeaks.Sensitivity.AtLeast(0.9).On(_rest.Seed(6)), "another seed has other beats");
        Assert.That(UnderTest.Answers(seed => path), Finds.RPeaks.On(_rest.Seed(5)));
    }

    [Test]
    public void AnswersInAFile_OutOfOrder_AreRefusedWithASentence()
    {
        string path = Path.Combine(_folder, "wild.csv");
        long[] beats = TruthAnswers.Scored(_rest, out long delayNs);
        File.WriteAllLines(path, ["channel,kind,time_ns", .. beats.Reverse().Select(t => FormattableString.Invariant($"ecg,r_peak,{t + delayNs}"))]);
        Assert.That(
            () => Finds.RPeaks.On(_rest).ApplyTo(UnderTest.Answers(path)), Throws.ArgumentException.With.Message.Contains("sort them by emitted_time_ns"));
    }

    [Test]
    public void MuteDetector_NeverDoesWhatIsAsked()
    {
        string message = Messages.OfFailure(UnderTest.Class<MuteDetector>(), Finds.RPeaks.Sensitivity.AtLeast(0).On(_rest.SeedsFrom(1, 3)));
        Assert.That(message, Does.Contain("But was:  silent with seed 1 (and 2 more of 3 seeds): The detector gave no mark at all."));
    }

    [Test]
    public void BreakingDetector_IsToldWithItsSentenceAndTheWayToSeeIt()
    {
        string message = Messages.OfFailure(UnderTest.Class<BreakingDetector>(), Reads.HeartRate.On(_rest));
        Assert.That(message, Does.Contain("crashed with seed 1: The detector threw InvalidOperationException in the block that ends at 20.0 s: the table is full {0}"));
        Assert.That(message, Does.Match(@"By hand:  sensorsim run /\S+/rest-finger\.toml --seed 1 --detector /\S+/SensorSim\.Testing\.Tests\.dll --detector-class \S+\.BreakingDetector"));
    }

    [Test]
    public void CrashingCLibrary_FailsOneTestOnly()
    {
        using UnderTest library = UnderTest.CLibrary(CCompiler.BadLibrary(_folder, "SEGFAULT"));
        string message = Messages.OfFailure(library, Finds.RPeaks.On(_rest));
        Assert.That(message, Does.Contain("crashed with seed 1").And.Contain("SIGSEGV"));
        Assert.That(UnderTest.Class<ThresholdDetector>(), Finds.RPeaks.On(_rest));
    }

    [Test]
    public void Nothing_IsRefusedWithASentence()
    {
        Assert.That(() => Finds.RPeaks.On(_rest).ApplyTo("a word"), Throws.ArgumentException.With.Message.Contains("String is nothing that can be tested here"));
        Assert.That(() => Finds.RPeaks.ApplyTo(UnderTest.Class<MuteDetector>()), Throws.ArgumentException.With.Message.Contains("add On(Given.Scenario"));
        Assert.That(() => UnderTest.CLibrary("gone.so"), Throws.TypeOf<FileNotFoundException>().With.Message.Contains("gone.so: there is no such file"));
        Assert.That(() => Finds.Events(ChannelName.Ecg, MarkKind.HeartRateBpm), Throws.ArgumentException.With.Message.Contains("is not scored as an event"));
        Assert.That(() => Reads.Value(ChannelName.Ecg, MarkKind.RPeak), Throws.ArgumentException.With.Message.Contains("is not scored as a reading"));
        Assert.That(() => UnderTest.Library(null!), Throws.ArgumentNullException.With.Message.Contains("calibration"));
        Assert.That(() => UnderTest.Program(null!), Throws.ArgumentNullException.With.Message.Contains("command"));
        Assert.That(() => UnderTest.Assembly("SensorSim.Testing.Tests.dll", null!), Throws.ArgumentNullException.With.Message.Contains("className"));
        Assert.That(() => UnderTest.Answers((string)null!), Throws.ArgumentNullException.With.Message.Contains("path"));
        Assert.That(() => Given.Scenario(null!), Throws.ArgumentNullException.With.Message.Contains("path"));
        Assert.That(() => _rest.With(null!, 1), Throws.ArgumentNullException);
        Assert.That(() => Finds.RPeaks.Sensitivity.AtLeast(99.5), Throws.InstanceOf<ArgumentOutOfRangeException>().With.Message.Contains("write 0.995 for 99.5 %"));
    }

    private void ExpectTheExample(UnderTest detector)
    {
        using (detector)
        {
            ScoredRuns runs = _rest.Run(detector);
            Assert.That(runs, Finds.RPeaks.TimingBiasMs.AtMost(14.5).Sensitivity.AtLeast(1).PositivePredictivity.AtLeast(1));
            Assert.That(runs, !Finds.RPeaks.TimingBiasMs.AtMost(13.5));
            Assert.That(runs.Runs[0].Outcome.Report!.Find(ChannelName.Ecg, MarkKind.RPeak)!.Matched, Is.EqualTo(56));
            Assert.That(runs, !Finds.PulseFeet, "it knows no pulse");
            Assert.That(runs, !Reads.HeartRate, "and no rate");
            Assert.That(runs.Runs[0].Outcome.DetectorName, Is.EqualTo("threshold 1.0"));
        }
    }
}
