// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.Programs;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scoring;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Running;

namespace SensorSim.Testing;

/// <summary>What is tested: a detector in one of its forms, or answers that are already there.</summary>
/// <remarks>
/// Keep one for a whole fixture and dispose of it at the end: a C library and a program have a process of their own. Every run gets a detector of its
/// own; safe for tests that run in parallel. Paths: see <see cref="TestFile"/>.
/// </remarks>
public sealed class UnderTest : IDisposable
{
    /// <summary>What answers are called that are in no file.</summary>
    internal const string AtHand = "the answers at hand";

    private static readonly Dictionary<string, double> s_usual = [];

    private readonly Func<IDetector>? _make;
    private readonly Func<ulong, (string Name, IEnumerable<TimedMark> Marks)>? _answers;
    private readonly Func<VectorCase, (string Name, IEnumerable<TimedMark> Marks)>? _answersOfCase;
    private readonly IDetectorFactory? _owned;
    private readonly DetectorChoice? _choice;

    private UnderTest(string name, Func<IDetector> make, string? options, IDetectorFactory? owned = null, DetectorChoice? choice = null)
    {
        Name = name;
        _make = make;
        CommandOptions = options;
        _owned = owned;
        _choice = choice;
    }

    private UnderTest(
        string name,
        Func<ulong, (string Name, IEnumerable<TimedMark> Marks)> answers,
        Func<VectorCase, (string Name, IEnumerable<TimedMark> Marks)>? ofCase = null)
    {
        Name = name;
        _answers = answers;
        _answersOfCase = ofCase;
    }

    /// <summary>What messages call it.</summary>
    public string Name { get; }

    /// <summary>Options of <c>sensorsim run</c> that name the same detector; null when the command cannot run it.</summary>
    internal string? CommandOptions { get; }

    /// <summary>Whether it is the library of this project.</summary>
    internal bool IsOwnLibrary => _choice is { Adapter: DetectorAdapter.Library } || CommandOptions is { Length: 0 };

    /// <summary>Whether answers are there already, so that nothing is run.</summary>
    internal bool HasAnswers => _answers is not null;

    /// <summary>Whether it is a program, which may take a calibration or refuse it.</summary>
    internal bool IsProgram => _choice is { Adapter: DetectorAdapter.Process };

    /// <summary>A class of the test's own program or of what it references.</summary>
    /// <typeparam name="T">The class.</typeparam>
    public static UnderTest Class<T>()
        where T : IDetector, new() => new(typeof(T).Name, static () => new T(), OptionsOf(typeof(T)));

    /// <summary>Whatever a function makes; it is called once a run.</summary>
    /// <param name="make">Makes a detector, a new one each time; the run disposes of it.</param>
    public static UnderTest Made(Func<IDetector> make)
    {
        ArgumentNullException.ThrowIfNull(make);
        using IDetector first = make();
        return new UnderTest(first.Name, make, OptionsOf(first.GetType()));
    }

    /// <summary>One detector, started anew for every run, as the contract allows; the caller keeps and disposes of it.</summary>
    /// <param name="detector">The detector.</param>
    public static UnderTest One(IDetector detector)
    {
        ArgumentNullException.ThrowIfNull(detector);
        return new UnderTest(detector.Name, () => new KeptDetector(detector), OptionsOf(detector.GetType()));
    }

    /// <summary>Whatever a factory makes, with its usual constants; the caller keeps and disposes of the factory.</summary>
    /// <param name="factory">The factory.</param>
    public static UnderTest Factory(IDetectorFactory factory)
    {
        ArgumentNullException.ThrowIfNull(factory);
        return new UnderTest(factory.Identity, () => factory.Create(s_usual), null);
    }

    /// <summary>A class of a .NET assembly that is loaded for the purpose.</summary>
    /// <param name="path">Path of the assembly.</param>
    /// <param name="className">Full name of the class; empty: the only one there is.</param>
    /// <exception cref="NotSupportedException">It cannot be loaded; the message says what would be right.</exception>
    public static UnderTest Assembly(string path, string className = "") => Opened(
        new DetectorChoice
        {
            Label = "own", Adapter = DetectorAdapter.Assembly, Path = TestFile.Find(path), ClassName = className ?? throw new ArgumentNullException(nameof(className)),
        },
        $"--detector {ByHand.PathWord(path)}{(className.Length == 0 ? "" : $" --detector-class {className}")}");

    /// <summary>A C shared library, see <c>sensorsim_detector.h</c>.</summary>
    /// <param name="path">Path of the library.</param>
    /// <param name="isInProcess">Whether it is loaded into the process of the tests: faster, but its crash ends them all.</param>
    /// <param name="hangS">Longest time for a block [s].</param>
    /// <exception cref="NotSupportedException">It cannot be loaded; the message says what would be right.</exception>
    public static UnderTest CLibrary(string path, bool isInProcess = false, double hangS = 10) => Opened(
        new DetectorChoice { Label = "own", Adapter = DetectorAdapter.CLibrary, Path = TestFile.Find(path), IsInProcess = isInProcess, HangS = hangS },
        $"--detector {ByHand.PathWord(path)}{(isInProcess ? " --in-process" : "")}");

    /// <summary>A program in any language that speaks the link protocol over its standard input and output.</summary>
    /// <param name="command">Program and arguments, words between spaces.</param>
    /// <param name="folder">Folder that it runs in; empty: that of the tests.</param>
    /// <param name="hangS">Longest time without progress [s].</param>
    /// <exception cref="NotSupportedException">It cannot be started; the message says why.</exception>
    /// <exception cref="FormatException">The command is none.</exception>
    public static UnderTest Program(string command, string folder = "", double hangS = 10)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(folder);
        return Opened(
            new DetectorChoice { Label = "own", Adapter = DetectorAdapter.Process, Command = CommandText.Words(command), Folder = folder, HangS = hangS },
            $"--detector-command '{command}'{(folder.Length == 0 ? "" : $" (in {folder})")}");
    }

    /// <summary>The library of this project, to compare with.</summary>
    /// <param name="calibration">Path of a calibration file that it is told; empty: none.</param>
    public static UnderTest Library(string calibration = "")
    {
        ArgumentNullException.ThrowIfNull(calibration);
        return Opened(
            new DetectorChoice { Label = "library", Calibration = calibration.Length == 0 ? null : CalibrationReader.ReadFile(TestFile.Find(calibration)).Calibration },
            calibration.Length == 0 ? "" : $"--calibration {ByHand.PathWord(calibration)}");
    }

    /// <summary>Answers in a file, as a device gave them on the samples of one seed.</summary>
    /// <param name="path">
    /// Path of a <c>detections.csv</c>; channel, kind and time_ns are enough. For a set of known answers also a folder with <c>CASE/detections.csv</c> or
    /// <c>CASE.csv</c>.
    /// </param>
    public static UnderTest Answers(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        return new(path, _ => (path, MarksFile.Read(TestFile.Find(path))), vectorCase => (path, MarksFile.Read(AnswerFile.Of(path, vectorCase.Name))));
    }

    /// <summary>Answers in files, one a seed.</summary>
    /// <param name="pathOfSeed">Path of the <c>detections.csv</c> of a seed.</param>
    public static UnderTest Answers(Func<ulong, string> pathOfSeed)
    {
        ArgumentNullException.ThrowIfNull(pathOfSeed);
        return new UnderTest("answers", seed => (pathOfSeed(seed), MarksFile.Read(TestFile.Find(pathOfSeed(seed)))));
    }

    /// <summary>Answers at hand, on the samples of one seed.</summary>
    /// <param name="marks">The answers, in the order in which they were given.</param>
    public static UnderTest Answers(IEnumerable<TimedMark> marks)
    {
        ArgumentNullException.ThrowIfNull(marks);
        TimedMark[] all = [.. marks];
        return new UnderTest("answers", _ => (AtHand, all), _ => (AtHand, all));
    }

    /// <summary>Lets go of processes and libraries.</summary>
    public void Dispose() => _owned?.Dispose();

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>What a constraint was handed, as something to test; null when it is none.</summary>
    internal static UnderTest? Of(object? actual) => actual switch
    {
        UnderTest under => under,
        IDetector detector => One(detector),
        IDetectorFactory factory => Factory(factory),
        IEnumerable<TimedMark> marks => Answers(marks),
        _ => null,
    };

    /// <summary>A detector for a run.</summary>
    internal IDetector Create() => _make!();

    /// <summary>A detector for a run, told of sensor and wearer if it can be.</summary>
    internal IDetector Create(DetectorCalibration? calibration)
    {
        if (calibration is null || _choice is not { Adapter: DetectorAdapter.Library or DetectorAdapter.Process } choice)
        {
            return Create();
        }

        IDetectorFactory told = DetectorFactories.Open(choice with { Calibration = calibration });
        return new KeptDetector(told.Create(s_usual), told);
    }

    /// <summary>The answers to a case of a set, and what messages call them.</summary>
    internal (string Name, IEnumerable<TimedMark> Marks) AnswersOf(VectorCase vectorCase) => _answersOfCase is not null
        ? _answersOfCase(vectorCase)
        : throw new ArgumentException($"The answers go by seeds, a set of known answers by cases; give a folder that holds {vectorCase.Name}.csv.");

    /// <summary>The answers of a seed, and what messages call them.</summary>
    internal (string Name, IEnumerable<TimedMark> Marks) AnswersOf(ulong seed) => _answers!(seed);

    private static UnderTest Opened(DetectorChoice choice, string options)
    {
        IDetectorFactory factory = DetectorFactories.Open(choice);
        return new UnderTest(factory.Identity, () => factory.Create(s_usual), options, factory, choice);
    }

    // The command makes a class itself, so it must be able to.
    private static string? OptionsOf(Type type)
    {
        if (type == typeof(SensorSim.Detectors.LibraryDetector))
        {
            return "";
        }

        string file = type.Assembly.Location;
        return type is { IsPublic: true, IsGenericType: false } && type.GetConstructor(Type.EmptyTypes) is not null && file.Length > 0
            ? $"--detector {ByHand.Word(file)} --detector-class {type.FullName}"
            : null;
    }
}
