// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using SensorSim.Detectors.CLibraries;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Detectors.Tests.CLibraries;

/// <summary>C libraries that crash, hang or break the contract.</summary>
[TestFixture]
public sealed class BadLibraryTests : TestLibraries
{
    // Numbers of the signals: signal(7) of Linux, from memory.
    [TestCase("SEGFAULT", "The detector's process was ended by SIGSEGV (access to memory that is not its own)")]
    [TestCase("ABORT", "The detector's process was ended by SIGABRT (abort or a failed assertion)")]
    [TestCase("DIVIDES", "The detector's process was ended by SIGFPE (wrong arithmetic, as division of an integer by zero)")]
    [TestCase("EXITS", "The detector ended its process with exit code 3")]
    [TestCase("EXITS_ZERO", "The detector ended its process with exit code 0")]
    [TestCase("CRASHES_ON_CLOSE", "The detector's process was ended by SIGABRT (abort or a failed assertion), while it was closed")]
    [TestCase("EXITS_ON_CLOSE", "The detector ended its process with exit code 0, while it was closed")]
    [TestCase("CLOSES_INPUT", "The detector disturbed the pipe to its process; it must leave standard input and output and memory of others alone")]
    [TestCase("TOO_MANY", "The detector reported 4104 marks where 4097 fit")]
    [TestCase("NEGATIVE", "The detector reported -1 settings requests where 65 fit")]
    [TestCase("BEYOND", "The detector wrote beyond the end of the buffer for its answers")]
    [TestCase("ERROR_CODE", "The detector returned an error from process (it returned 42)")]
    public void Child_Fails_SaysHowAndTheNextStartHasANewOne(string behaviour, string sentence)
    {
        using var factory = new CLibraryFactory(Bad(behaviour));
        using IDetector detector = factory.Create(NoConstants);
        for (int run = 1; run <= 3; run++)
        {
            Assert.That(() => Run(detector, Maker(5)), Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo(sentence));
            Assert.That(factory.ChildCount, Is.EqualTo(run));
        }
    }

    [TestCase("TOO_MANY", "The detector reported 4104 marks where 4097 fit")]
    [TestCase("BEYOND", "The detector wrote beyond the end of the buffer for its answers")]
    [TestCase("ERROR_CODE", "The detector returned an error from process (it returned 42)")]
    public void InProcess_BreaksTheContract_SaysHow(string behaviour, string sentence)
    {
        using var factory = new CLibraryFactory(Bad(behaviour), isInProcess: true);
        using IDetector detector = factory.Create(NoConstants);
        Assert.That(() => Run(detector, Maker(5)), Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo(sentence));
    }

    [TestCase("ENDLESS", "")]
    [TestCase("HANGS_ON_OPEN", "")]
    [TestCase("HANGS_ON_CLOSE", ", while it was closed")]
    public void Child_Hangs_IsEndedAfterItsTime(string behaviour, string when)
    {
        using var factory = new CLibraryFactory(Bad(behaviour), hangS: 1.5);
        using IDetector detector = factory.Create(NoConstants);
        for (int run = 1; run <= 2; run++)
        {
            Assert.That(
                () => Run(detector, Maker(5)),
                Throws.TypeOf<DetectorHungException>().With.Message.EqualTo("The detector did not return within 1.5 s and was ended" + when));
            Assert.That(factory.ChildCount, Is.EqualTo(run));
        }
    }

    [TestCase(true)]
    [TestCase(false)]
    public void Process_Babbling_OverflowsTheRoomAsInCsharp(bool isInProcess)
    {
        using var factory = new CLibraryFactory(Bad("BABBLING"), isInProcess);
        using IDetector detector = factory.Create(NoConstants);
        StreamMaker maker = Maker(5);
        detector.Start(maker.Format);
        var output = new DetectorOutput();
        var block = new SampleBlock(maker.Format, maker.EndTick);
        for (int s = 0; s < 3; s++)
        {
            output.Marks.Clear();
            maker.Fill(block, s * maker.Format.Clock.TicksPerSecond, (s + 1) * maker.Format.Clock.TicksPerSecond);
            detector.Process(block, output);
        }

        Assert.That((output.Marks.Count, output.Marks.OverflowCount), Is.EqualTo((4096, 1)));
    }

    [Test]
    public void InProcess_ArithmeticChanged_IsNoticedAndPutBack([Values("DENORMALS", "ROUNDING")] string behaviour)
    {
        Assume.That(RuntimeInformation.ProcessArchitecture, Is.EqualTo(Architecture.X64), "the library sets the control word of this processor");
        using var factory = new CLibraryFactory(Bad(behaviour), isInProcess: true);
        using IDetector detector = factory.Create(NoConstants);

        Assert.That(
            () => Run(detector, Maker(5)),
            Throws.TypeOf<DetectorCrashedException>().With.Message.StartsWith("The detector switches the processor to inexact arithmetic"));
        Assert.That(Arithmetic.IsIntact(), Is.True, "put back on this thread");
    }

    [Test]
    public void InProcess_FastMathLibrary_IsRefusedOnLoading()
    {
        Assume.That(RuntimeInformation.ProcessArchitecture, Is.EqualTo(Architecture.X64), "that start-up object is there for this processor");

        // Newer compilers leave out for shared libraries what this start-up object does, so it is linked in by name.
        string object_ = CCompiler.Run("gcc", "-print-file-name=crtfastmath.o").Trim();
        string path = CCompiler.Library(CCompiler.Example, At("fast.so"), "-Ofast", object_);
        string plain = CCompiler.Library(CCompiler.Example, At("plain.so"), "-O2");

        Assert.That(
            () => new CLibraryFactory(path, isInProcess: true).Dispose(),
            Throws.TypeOf<NotSupportedException>().With.Message.Contains("fast.so: switches the processor to inexact arithmetic").And.Message.Contains("without -Ofast"));
        Assert.That(Arithmetic.IsIntact(), Is.True, "the thread that asked is untouched");
        Assert.That(() => new CLibraryFactory(plain, isInProcess: true).Dispose(), Throws.Nothing);
        Assert.That(() => new CLibraryFactory(path).Dispose(), Throws.Nothing, "in its own process it may");
    }

    [TestCase("OTHER_ABI", "speaks version 77 of the detector contract, this program speaks version 1; build it with the sensorsim_detector.h of this program")]
    [TestCase("NO_CLOSE", "is no detector: it does not export sensorsim_detector_close; see sensorsim_detector.h for what a library exports")]
    [TestCase("BAD_NAME", "constant detector.Current mA must be named detector. and then lower-case letters, digits and underscores, a letter first")]
    public void Open_NotOurs_IsRefused(string behaviour, string sentence)
    {
        string path = Bad(behaviour);
        foreach (bool isInProcess in new[] { true, false })
        {
            Assert.That(() => new CLibraryFactory(path, isInProcess).Dispose(), Throws.TypeOf<NotSupportedException>().With.Message.EqualTo($"{path}: {sentence}"));
        }
    }

    [Test]
    public void Open_CrashesWhileLoading_IsRefused()
    {
        string path = Bad("CRASHES_ON_LOAD");
        Assert.That(
            () => new CLibraryFactory(path).Dispose(),
            Throws.TypeOf<NotSupportedException>().With.Message.EqualTo($"{path}: cannot be loaded: The detector's process was ended by SIGABRT (abort or a failed assertion)"));
    }

    [Test]
    public void Start_ConstantRefused_IsACrash()
    {
        using var factory = new CLibraryFactory(Bad("REFUSES_VALUE"));
        using IDetector detector = factory.Create(new Dictionary<string, double> { ["detector.current_ma"] = 3 });
        Assert.That(
            () => detector.Start(Maker().Format),
            Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo("The detector refused the value of a constant (it returned 9)"));
    }

    [Test]
    public void Open_FilesThatAreNoLibrary_AreRefusedInOneSentence()
    {
        File.WriteAllText(At("text.so"), "not a library");
        File.WriteAllText(At("empty.so"), "");
        File.WriteAllText(At("needs.c"), "int missing_function(void); int sensorsim_detector_abi(void); int sensorsim_detector_abi(void) { return missing_function(); }");
        byte[] other = File.ReadAllBytes(Threshold());
        other[18] = 40;
        File.WriteAllBytes(At("arm.so"), other);
        File.WriteAllText(At("program.c"), "int main(void) { return 0; }");
        CCompiler.Build(At("program.c"), At("program.so"), "-no-pie");
        File.WriteAllBytes(At("windows.so"), [.. "MZ"u8, .. new byte[100]]);
        File.WriteAllBytes(At("short.so"), File.ReadAllBytes(Threshold())[..40]);
        CCompiler.Library(At("needs.c"), At("needs.so"), "-Wl,-z,now");

        AssertRefused(At("gone.so"), "there is no such file");
        AssertRefused(At(""), "is a folder; name the file of the detector in it");
        AssertRefused(At("text.so"), "is not a shared library; this computer needs a Linux library (.so)");
        AssertRefused(At("empty.so"), "is not a shared library; this computer needs a Linux library (.so)");
        AssertRefused(
            At("arm.so"),
            $"is built for arm (32 bit); this computer needs {(RuntimeInformation.ProcessArchitecture == Architecture.X64 ? "x86-64" : "arm64")}");
        AssertRefused(At("program.so"), "is a program or an object file, not a shared library; link it with -shared");
        AssertRefused(At("windows.so"), "is a Windows file; this computer needs a Linux library (.so)");
        AssertRefused(At("short.so"), "cannot be loaded: file too short");
        AssertRefused(At("needs.so"), "cannot be loaded: undefined symbol: missing_function");
        AssertRefused(typeof(BadLibraryTests).Assembly.Location, "is a .NET assembly, not a C library; its adapter is assembly");
    }

    private static void AssertRefused(string path, string sentence)
    {
        foreach (bool isInProcess in new[] { true, false })
        {
            Assert.That(() => new CLibraryFactory(path, isInProcess).Dispose(), Throws.TypeOf<NotSupportedException>().With.Message.EqualTo($"{path}: {sentence}"));
        }
    }
}
