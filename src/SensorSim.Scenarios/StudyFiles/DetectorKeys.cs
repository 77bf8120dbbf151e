// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Keys of <c>[[detector]]</c>.</summary>
public static class DetectorKeys
{
    internal const string Section = "detector";
    internal const string Library = "library";
    internal const string Assembly = "assembly";
    internal const string CLibrary = "c_library";
    internal const string Process = "process";
    internal const string Ours = "ours";

    /// <summary>Label.</summary>
    public static readonly TextKey Label = Text("label", "What tables and pictures call the detector; must be given when there are several, else ours unless given.", 40);

    /// <summary>Adapter.</summary>
    public static readonly ChoiceKey Adapter = new()
    {
        Name = "detector.adapter",
        Meaning = "What the detector is: the library of this project, a class of a .NET assembly, a C shared library, or a program that speaks the link protocol.",
        Source = StudySectionKeys.Own,
        Choices = [Library, Assembly, CLibrary, Process],
        Default = Library,
    };

    /// <summary>File.</summary>
    public static readonly TextKey File = Text("file", "Path of the assembly or C library, from the study's folder on.", 1000);

    /// <summary>Command.</summary>
    public static readonly FreeKey Command = new()
    {
        Name = "detector.command",
        Meaning = "Program and what it is told, word by word; it runs in the study's folder.",
        HasDefault = false,
        Source = StudySectionKeys.Own,
        Allowed = "a list of words, for example [\"python3\", \"detector.py\"]",
        Shape = new(ValueForm.Texts) { LeastItems = 1 },
    };

    /// <summary>Class.</summary>
    public static readonly TextKey Class = Text("class", "Full name of the detector's class; needed when the assembly has several.", 500);

    /// <summary>In this process.</summary>
    public static readonly FlagKey InProcess = Flag("in_process", "C library: loaded into this process instead of one of its own; faster, but its crash ends everything.");

    /// <summary>Hanging.</summary>
    public static readonly NumberKey HangS = new()
    {
        Name = "detector.hang_s",
        Unit = "s",
        Meaning = "Longest time for a block before the detector counts as hanging; up waits longer. For a C library in a process of its own, and for a program.",
        Source = StudySectionKeys.Own,
        Minimum = 0.1,
        Maximum = 3600,
        Default = 10,
    };

    /// <summary>Calibration.</summary>
    public static readonly TextKey Calibration = Text("calibration", "Path of a calibration that the library of this project or a program is told, from the study's folder on.", 1000);

    /// <summary>Control.</summary>
    public static readonly TextKey Control = Text("control", "Control around the detector that asks for settings; acts in a closed loop.", 40);

    /// <summary>Closed loop.</summary>
    public static readonly FlagKey ClosedLoop = Flag("closed_loop", "Whether the settings that detector and control ask for reach the sensor.");

    /// <summary>Latency.</summary>
    public static readonly NumberKey LatencyMs = new()
    {
        Name = "detector.latency_ms",
        Unit = "ms",
        Meaning = "Closed loop: time from a request to its effect.",
        Source = StudySectionKeys.Own,
        IsWhole = true,
        Minimum = 100,
        Maximum = 60_000,
        Default = 100,
    };

    /// <summary>Constants.</summary>
    public static readonly FreeKey Constants = new()
    {
        Name = "detector.constants",
        Meaning = "Constants of the detector that differ from their defaults.",
        HasDefault = false,
        Source = StudySectionKeys.Own,
        Allowed = "a table of numbers, for example { some_constant = 3 }",
        Shape = new(ValueForm.TableOfNumbers),
    };

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [Label, Adapter, File, Command, Class, InProcess, HangS, Calibration, Control, ClosedLoop, LatencyMs, Constants];

    private static TextKey Text(string key, string meaning, int longest) => new()
    {
        Name = $"{Section}.{key}",
        Meaning = meaning,
        HasDefault = false,
        MaximumLength = longest,
        Source = StudySectionKeys.Own,
    };

    private static FlagKey Flag(string key, string meaning) => new() { Name = $"{Section}.{key}", Meaning = meaning, Source = StudySectionKeys.Own };
}
