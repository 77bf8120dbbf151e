// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.Programs;

namespace SensorSim.Cli.Options;

/// <summary>The options that put a user's own detector in the place of the library.</summary>
internal sealed record DetectorOptions
{
    /// <summary>File of the detector.</summary>
    public required Option<string?> Detector { get; init; }

    /// <summary>Command of the detector.</summary>
    public required Option<string?> DetectorCommand { get; init; }

    /// <summary>Class in an assembly.</summary>
    public required Option<string?> DetectorClass { get; init; }

    /// <summary>A C library in this process.</summary>
    public required Option<bool> InProcess { get; init; }

    /// <summary>Creates the options.</summary>
    public static DetectorOptions Create() => new()
    {
        Detector = new Option<string?>("--detector")
        {
            Description = "Your own detector in place of the library: a .NET assembly or a C shared library",
            HelpName = "FILE",
        },
        DetectorCommand = new Option<string?>("--detector-command")
        {
            Description = "Your own detector in place of the library: a program that speaks the link protocol over its standard input and output, with what it is told",
            HelpName = "COMMAND",
        },
        DetectorClass = new Option<string?>("--detector-class")
        {
            Description = "Assembly with several detectors: full name of the class",
            HelpName = "NAME",
        },
        InProcess = new Option<bool>("--in-process") { Description = "C library: run it in this process instead of its own; faster, but its crash ends the command" },
    };

    /// <summary>Reads the options; null for the library.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="hasCalibration">Whether a calibration was given.</param>
    /// <exception cref="UsageException">The options do not fit together.</exception>
    /// <exception cref="NotSupportedException">There is no such file.</exception>
    public DetectorChoice? Read(ParseResult parsed, bool hasCalibration)
    {
        string? path = parsed.GetValue(Detector);
        string? name = parsed.GetValue(DetectorClass);
        bool isInProcess = parsed.GetValue(InProcess);
        if (parsed.GetValue(DetectorCommand) is string command)
        {
            return path is null && name is null && !isInProcess
                ? new DetectorChoice { Label = "own", Adapter = DetectorAdapter.Process, Command = Words(command) }
                : throw new UsageException("--detector-command stands alone: --detector, --detector-class and --in-process are for detectors that are files");
        }

        if (path is null)
        {
            return name is null && !isInProcess
                ? null
                : throw new UsageException("--detector-class and --in-process belong to a detector of your own; add --detector FILE");
        }

        if (hasCalibration)
        {
            throw new UsageException("--calibration is for the library; it cannot be told to a detector of your own, leave out one of the two");
        }

        DetectorAdapter adapter = DetectorFiles.AdapterOf(path);
        if (adapter == DetectorAdapter.CLibrary && name is not null)
        {
            throw new UsageException($"--detector-class names a class of a .NET assembly; {path} is none");
        }

        if (adapter == DetectorAdapter.Assembly && isInProcess)
        {
            throw new UsageException($"--in-process is for C libraries; {path} is a .NET assembly, which always runs in this process");
        }

        return new DetectorChoice { Label = "own", Adapter = adapter, Path = path, ClassName = name ?? "", IsInProcess = isInProcess };
    }

    /// <summary>Whether a detector of the user's own is named.</summary>
    /// <param name="parsed">The command line.</param>
    public bool IsGiven(ParseResult parsed) => parsed.GetValue(Detector) is not null || parsed.GetValue(DetectorCommand) is not null;

    private static IReadOnlyList<string> Words(string command)
    {
        try
        {
            return CommandText.Words(command);
        }
        catch (FormatException e)
        {
            throw new UsageException($"--detector-command: {e.Message}");
        }
    }
}
