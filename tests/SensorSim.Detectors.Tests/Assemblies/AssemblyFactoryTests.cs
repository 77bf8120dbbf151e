// SPDX-License-Identifier: MIT
using Mono.Cecil;
using SensorSim.Detectors.Assemblies;
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.CLibraries;
using SensorSim.Detectors.Tests.CLibraries;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;

namespace SensorSim.Detectors.Tests.Assemblies;

/// <summary>Detectors of a user's assembly.</summary>
[TestFixture]
public sealed class AssemblyFactoryTests : TestLibraries
{
    private const string Samples = "SensorSim.Detectors.Tests.Assemblies.";

    private static string This => typeof(AssemblyFactoryTests).Assembly.Location;

    private static string Example => Path.Combine(AppContext.BaseDirectory, "SensorSim.Examples.Threshold.dll");

    [Test]
    public void Open_TheOnlyClass_NeedsNoName()
    {
        using var factory = new AssemblyFactory(Example);
        string sum = SensorSim.Tests.Shared.CCompiler.Run("sha256sum", Example).Split(' ')[0];
        Assert.That(factory.Identity, Is.EqualTo("threshold 1.0 sha256:" + sum));
        Assert.That(factory.Constants.Select(k => k.Name), Is.EqualTo(new[] { "detector.refractory_ms", "detector.threshold_percent" }));
        using IDetector made = factory.Create(NoConstants);
        Assert.That(made, Is.Not.InstanceOf<SensorSim.Examples.Threshold.ThresholdDetector>(), "loaded apart from this program's own");
    }

    [Test]
    public void Examples_CsharpAndC_GiveTheSameMarks()
    {
        using var csharp = new AssemblyFactory(Example);
        using var c = new CLibraryFactory(Threshold());
        StreamMaker maker = Maker(60);
        maker.Lose(0, 3000, 500);
        var random = new Random(3);
        foreach (Dictionary<string, double> constants in new Dictionary<string, double>[]
        {
            new(), new() { ["detector.threshold_percent"] = 12 }, new() { ["detector.refractory_ms"] = 600, ["detector.threshold_percent"] = 10 },
        })
        {
            using IDetector one = csharp.Create(constants);
            using IDetector other = c.Create(constants);
            List<Mark> expected = Run(one, maker).Marks;
            Assert.That(expected, Has.Count.GreaterThan(60));
            Assert.That(Run(other, maker).Marks, Is.EqualTo(expected));
            Assert.That(Run(one, maker, () => random.Next(1, 300)).Marks, Is.EqualTo(expected));
        }
    }

    [Test]
    public void Create_WrongConstant_IsRefused()
    {
        using var factory = new AssemblyFactory(Example);
        Assert.That(
            () => factory.Create(new Dictionary<string, double> { ["detector.threshold_percent"] = 91 }),
            Throws.TypeOf<NotSupportedException>().With.Message.EndsWith("detector.threshold_percent = 91 must be 10 to 90, whole %"));
    }

    // A study makes detectors outside of its runs; what one throws about a value belongs to the run.
    [Test]
    public void Start_ConstantThrows_ThrowsThereAndNotWhenMade()
    {
        using var factory = new AssemblyFactory(This, Samples + "StubbornDetector");
        using IDetector made = factory.Create(new Dictionary<string, double> { ["detector.speed"] = 0.5 });
        Assert.That(() => made.Start(Maker().Format), Throws.InvalidOperationException.With.Message.EqualTo("never"));
    }

    [Test]
    public void Open_ClassByName_IsThatOne()
    {
        using var factory = new AssemblyFactory(This, Samples + "PlainDetector");
        using IDetector made = factory.Create(NoConstants);
        Assert.That((made.Name, factory.Constants.Count), Is.EqualTo(("sample 1.0", 0)));
    }

    [TestCase("", "there are several detector classes; name one: it has SensorSim.Detectors.Tests.Assemblies.MisnamedDetector, SensorSim.Detectors.Tests.Assemblies.MuteDetector,")]
    [TestCase("Nobody", "there is no detector class Nobody; it has SensorSim.Detectors.Tests.Assemblies.MisnamedDetector,")]
    [TestCase(Samples + "SampleDetector", "there is no detector class SensorSim.Detectors.Tests.Assemblies.SampleDetector; it has")]
    [TestCase(Samples + "ThrowingDetector", "the constructor of SensorSim.Detectors.Tests.Assemblies.ThrowingDetector threw InvalidOperationException: no licence")]
    [TestCase(Samples + "NeedyDetector", "SensorSim.Detectors.Tests.Assemblies.NeedyDetector needs a public constructor without parameters")]
    [TestCase(Samples + "NamelessDetector", "SensorSim.Detectors.Tests.Assemblies.NamelessDetector gives no name")]
    [TestCase(Samples + "MuteDetector", "SensorSim.Detectors.Tests.Assemblies.MuteDetector threw NotImplementedException when asked for its name and constants: later")]
    [TestCase(Samples + "MisnamedDetector", "constant speed must be named detector. and then lower-case letters, digits and underscores, a letter first")]
    public void Open_WrongClass_IsRefusedInOneSentence(string name, string sentence) => AssertRefused(This, name, sentence);

    [Test]
    public void Open_WrongFile_IsRefusedInOneSentence()
    {
        File.WriteAllText(At("text.dll"), "not an assembly");
        AssertRefused(At("gone.dll"), "", "there is no such file");
        AssertRefused(At("text.dll"), "", "is not a .NET assembly; build the detector with dotnet build and name the .dll");
        AssertRefused(Threshold(), "", "is not a .NET assembly;");
        AssertRefused(typeof(AssemblyDefinition).Assembly.Location, "", "no class in it implements IDetector (SensorSim.Signals.Detectors.IDetector); a detector is a class that does");
    }

    [Test]
    public void Open_BuiltAgainstAnotherContract_IsRefused()
    {
        using (AssemblyDefinition example = AssemblyDefinition.ReadAssembly(Example))
        {
            example.MainModule.AssemblyReferences.Single(r => r.Name == "SensorSim.Signals").Version = new Version(0, 77, 0, 0);
            example.Write(At("other.dll"));
        }

        Version own = typeof(IDetector).Assembly.GetName().Version!;
        AssertRefused(
            At("other.dll"),
            "",
            $"is built against SensorSim.Signals 0.77, this program has {own.ToString(2)}; build it again with the SensorSim.Signals.dll of this program");
    }

    [Test]
    public void AdapterOf_Files_IsWhatTheyAre()
    {
        Assert.That(DetectorFiles.AdapterOf(Example), Is.EqualTo(DetectorAdapter.Assembly));
        Assert.That(DetectorFiles.AdapterOf(Threshold()), Is.EqualTo(DetectorAdapter.CLibrary));
        Assert.That(() => DetectorFiles.AdapterOf(At("gone")), Throws.TypeOf<NotSupportedException>());
    }

    [Test]
    public void Open_CalibrationForAStranger_IsRefused() => Assert.That(
        () => DetectorFactories.Open(new DetectorChoice { Label = "x", Adapter = DetectorAdapter.Assembly, Path = Example, Calibration = new DetectorCalibration() }),
        Throws.TypeOf<NotSupportedException>().With.Message.Contains("a calibration is for the library of this program"));

    private static void AssertRefused(string path, string name, string sentence) => Assert.That(
        () => new AssemblyFactory(path, name).Dispose(), Throws.TypeOf<NotSupportedException>().With.Message.StartsWith($"{path}: {sentence}"));

    [Test]
    public void Dispose_Throws_IsAComplaintAndNoException()
    {
        string path = typeof(WedgedDetector).Assembly.Location;
        GuestCode.TakeComplaints();
        using (var factory = new AssemblyFactory(path, typeof(WedgedDetector).FullName!))
        {
            Assert.That(factory.Identity, Does.StartWith("wedged [31m 1.0 sha256:"));
            Assert.That(() => factory.Create(new Dictionary<string, double>()).Dispose(), Throws.Nothing);
        }

        Assert.That(
            GuestCode.TakeComplaints(),
            Is.EqualTo(new[] { $"{path}: the detector threw InvalidOperationException when it was disposed of: still in use" }), "once, however often");
        Assert.That(GuestCode.TakeComplaints(), Is.Empty);
    }
}
