// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Detectors.CLibraries;
using SensorSim.Detectors.Programs;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Boards;
using SensorSim.Tests.Shared;

namespace SensorSim.Detectors.Tests.Programs;

/// <summary>Programs as detectors: the worked example in Python, and what goes wrong with others.</summary>
[TestFixture]
public sealed class ProcessFactoryTests
{
    private static readonly string s_python = Path.Combine(CCompiler.Root, "docs", "examples", "process", "python");
    private static readonly string s_bad = Path.Combine(CCompiler.Root, "tests", "SensorSim.Detectors.Tests", "Programs", "bad_detector.py");
    private static readonly Dictionary<string, double> s_none = [];

    // The same algorithm in Python over pipes and in C in a child; neither knows how the stream is cut.
    [Test]
    public void Run_WorkedExample_GivesTheMarksOfItsTwinInC()
    {
        StreamMaker stream = Stream(30);
        stream.Lose(0, 2000, 300);
        string folder = Directory.CreateTempSubdirectory("programs-").FullName;
        using var c = new CLibraryFactory(CCompiler.Library(CCompiler.Example, Path.Combine(folder, "threshold.so")));
        using IDetector inC = c.Create(s_none);
        using var python = new ProcessFactory(["python3", "threshold_detector.py"], s_python);
        using IDetector inPython = python.Create(s_none);
        List<Mark> expected = Run(inC, stream, 250);
        List<Mark> actual = Run(inPython, stream, 250);
        List<Mark> otherCut = Run(inPython, stream, 77);
        Directory.Delete(folder, recursive: true);

        Assert.That(expected, Has.Count.GreaterThan(20));
        Assert.That(actual, Is.EqualTo(expected));
        Assert.That(otherCut, Is.EqualTo(expected));
        Assert.That(inPython.Name, Is.EqualTo("threshold 1.0"));
        Assert.That(python.ProcessCount, Is.EqualTo(1), "used again from run to run");
    }

    [TestCase("exits", "The detector ended its process with exit code 7")]
    [TestCase("ends", "The detector ended before the stream did")]
    [TestCase("segfault", "The detector's process was ended by SIGSEGV (access to memory that is not its own)")]
    [TestCase("raises", "The detector ended its process with exit code 1")]
    public void Process_ProgramDies_IsSaidAndTheNextRunHasANewOne(string behaviour, string sentence)
    {
        using ProcessFactory factory = Bad(behaviour);
        using IDetector detector = factory.Create(s_none);
        for (int run = 1; run <= 2; run++)
        {
            Assert.That(() => Run(detector, Stream(5), 250), Throws.TypeOf<DetectorCrashedException>().With.Message.EqualTo(sentence));
            Assert.That(factory.ProcessCount, Is.EqualTo(run));
        }
    }

    [Test]
    public void Process_ProgramHangs_IsEnded()
    {
        using ProcessFactory factory = Bad("hangs", 1.5);
        using IDetector detector = factory.Create(s_none);
        Assert.That(
            () => Run(detector, Stream(5), 250),
            Throws.TypeOf<DetectorHungException>().With.Message.EqualTo("The detector did not take the samples of a block within 1.5 s and was ended"));
    }

    [Test]
    public void Flush_ProgramHangs_IsEnded()
    {
        using ProcessFactory factory = Bad("hangs_at_the_end", 1.5);
        using IDetector detector = factory.Create(s_none);
        Assert.That(
            () => Run(detector, Stream(5), 250),
            Throws.TypeOf<DetectorHungException>().With.Message.EqualTo("The detector did not stop within 1.5 s and was ended"));
    }

    [Test]
    public void Process_ProgramPrints_IsNoFrame()
    {
        using ProcessFactory factory = Bad("prints");
        using IDetector detector = factory.Create(s_none);
        Assert.That(
            () => Run(detector, Stream(5), 250),
            Throws.TypeOf<DetectorCrashedException>().With.Message.Match("^The detector sent [0-9]+ bytes without a valid frame among them$"));
    }

    [Test]
    public void Start_StreamThatTheProgramRefuses_GivesItsReasonAndStaysUsable()
    {
        using ProcessFactory factory = Bad("refuses");
        using IDetector detector = factory.Create(s_none);
        Assert.That(
            () => Run(detector, Stream(5), 250),
            Throws.TypeOf<NotSupportedException>().With.Message.EqualTo("The detector refuses (FormatRefused): The stream has no smell; bad needs it."));
    }

    [TestCase("leaves", "cannot be used: The detector ended its process with exit code 3")]
    [TestCase("talks", "cannot be used: No valid frame in")]
    public void Open_ProgramThatIsNoDetector_IsRefused(string behaviour, string sentence) =>
        Assert.That(() => Bad(behaviour), Throws.TypeOf<NotSupportedException>().With.Message.Contains(sentence));

    [TestCase("no-such-program-here", "no-such-program-here: cannot be started: there is no such program; give its path, or install it")]
    [TestCase("./threshold_detector.py.gone", "./threshold_detector.py.gone: cannot be started: there is no such program; give its path, or install it")]
    [TestCase("./sensorsim_link.py", "./sensorsim_link.py: cannot be started: it may not be executed; make it executable, or name its interpreter first")]
    public void Open_CannotBeStarted_IsRefused(string program, string sentence) =>
        Assert.That(() => new ProcessFactory([program], s_python), Throws.TypeOf<NotSupportedException>().With.Message.EqualTo(sentence));

    [Test]
    public void Create_Constants_ThereAreNone()
    {
        using ProcessFactory factory = Bad("good");
        Assert.That(
            () => factory.Create(new Dictionary<string, double> { ["detector.x"] = 1 }),
            Throws.TypeOf<NotSupportedException>().With.Message.EndsWith("there is no constant detector.x; it has none"));
    }

    // The words count, and the bytes of files that they name, not where those lie.
    [Test]
    public void Identity_IsOfWordsAndFiles()
    {
        string one = Directory.CreateTempSubdirectory("programs-").FullName;
        string two = Directory.CreateTempSubdirectory("programs-").FullName;
        File.WriteAllText(Path.Combine(one, "a.py"), "1");
        File.WriteAllText(Path.Combine(two, "a.py"), "1");
        string first = CommandIdentity.Sha256(["python3", "a.py"], one);
        Assert.That(CommandIdentity.Sha256(["python3", "a.py"], two), Is.EqualTo(first));
        Assert.That(CommandIdentity.Sha256(["python3", Path.Combine(two, "a.py")], one), Is.EqualTo(first));
        Assert.That(CommandIdentity.Sha256(["python3", "a.py", "-x"], one), Is.Not.EqualTo(first));
        File.WriteAllText(Path.Combine(two, "a.py"), "2");
        Assert.That(CommandIdentity.Sha256(["python3", "a.py"], two), Is.Not.EqualTo(first));
        Directory.Delete(one, recursive: true);
        Directory.Delete(two, recursive: true);
    }

    [Test]
    public void Dispose_EndsTheProcess()
    {
        ProcessFactory factory = Bad("good");
        int[] running = Children();
        Assert.That(running, Is.Not.Empty);
        factory.Dispose();
        Assert.That(Children(), Is.Empty);
    }

    [TestCase("python3 detector.py", "python3", "detector.py")]
    [TestCase("  ./my detector  ", "./my", "detector")]
    [TestCase("python3 \"my detector.py\" --name='a b'", "python3", "my detector.py", "--name=a b")]
    [TestCase("x \"\" 'it\"s'", "x", "", "it\"s")]
    public void Words_OfACommand(string text, params string[] words) => Assert.That(CommandText.Words(text), Is.EqualTo(words));

    [TestCase("", "the command has no word")]
    [TestCase("  ", "the command has no word")]
    [TestCase("\"\" x", "the command has no word")]
    [TestCase("a 'b", "open quotation mark (')")]
    public void Words_OfNoCommand_AreRefused(string text, string sentence) =>
        Assert.That(() => CommandText.Words(text), Throws.TypeOf<FormatException>().With.Message.Contains(sentence));

    // Processes of this test that run the script of this test.
    private static int[] Children() =>
    [
        .. Process.GetProcessesByName("python3").Concat(Process.GetProcesses().Where(p => p.ProcessName.StartsWith("python3.", StringComparison.Ordinal)))
            .Where(p => IsOurs(p.Id)).Select(p => p.Id),
    ];

    private static bool IsOurs(int process)
    {
        try
        {
            string status = File.ReadAllText($"/proc/{process}/status");
            return status.Contains($"PPid:\t{Environment.ProcessId}\n", StringComparison.Ordinal) && !status.Contains("State:\tZ", StringComparison.Ordinal);
        }
        catch (IOException)
        {
            return false;
        }
    }

    private static ProcessFactory Bad(string behaviour, double hangS = 20) => new(["python3", s_bad, s_python, behaviour], "", hangS);

    private static StreamMaker Stream(double seconds) =>
        new(seconds, StreamMaker.Channel(ChannelName.Ecg, 250), StreamMaker.Channel(ChannelName.Infrared, 100));

    private static List<Mark> Run(IDetector detector, StreamMaker stream, long length) =>
        BoardRuns.Run(detector, stream.Format, stream.Fill, stream.EndTick, () => length).Marks;
}
