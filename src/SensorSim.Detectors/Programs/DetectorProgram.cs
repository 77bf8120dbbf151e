// SPDX-License-Identifier: MIT
using System.ComponentModel;
using System.Diagnostics;
using SensorSim.Detectors.Boards;
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.CLibraries;
using SensorSim.Links;
using SensorSim.Links.Lines;
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors.Programs;

/// <summary>A running program that speaks the link protocol over its standard input and output. Used by one detector at a time.</summary>
internal sealed class DetectorProgram : IDisposable
{
    // A new process may have to load an interpreter first; that is none of the detector's fault.
    private const double ShortestHelloS = 60;
    private const int ExitMs = 5000;
    private const int NoSuchFile = 2;
    private const int NoPermission = 13;

    private readonly Process _process;
    private readonly bool _hasHello;

    /// <summary>Starts the program and says hello.</summary>
    /// <param name="command">Program and arguments.</param>
    /// <param name="folder">Folder that it runs in.</param>
    /// <param name="hangS">Longest time without progress [s].</param>
    /// <param name="calibration">What it is told of sensor and wearer; null: nothing.</param>
    /// <exception cref="NotSupportedException">It cannot be started.</exception>
    /// <exception cref="DetectorCrashedException">It ended, or does not speak the protocol.</exception>
    public DetectorProgram(IReadOnlyList<string> command, string folder, double hangS, DetectorCalibration? calibration)
    {
        _process = Launch(command, folder);
        var link = new StreamLink(_process.StandardOutput.BaseStream, _process.StandardInput.BaseStream, $"process {Path.GetFileName(command[0])}");
        var options = new BoardOptions
        {
            Calibration = calibration,
            HangS = hangS,
            HelloS = Math.Max(hangS, ShortestHelloS),
            Subject = "The detector",
            WhyGone = HowItEnded,
        };
        Detector = new BoardDetector(new BoardLine(link), options);
        try
        {
            Detector.Connect();
            _hasHello = true;
        }
        catch (LinkUnavailableException e)
        {
            throw new DetectorCrashedException(e.Message.TrimEnd('.'), e);
        }
        catch (LinkLostException e)
        {
            throw new DetectorCrashedException(HowItEnded(e), e);
        }
        finally
        {
            if (!_hasHello)
            {
                Dispose();
            }
        }
    }

    /// <summary>The detector at its pipes.</summary>
    public BoardDetector Detector { get; }

    /// <summary>Ends it: by closing its input, and by force when that does not help or it is broken.</summary>
    public void Dispose()
    {
        if (!_hasHello || Detector.IsBroken)
        {
            Kill();
        }

        Detector.Dispose();
        if (!_process.WaitForExit(ExitMs))
        {
            Kill();
        }

        _process.Dispose();
    }

    /// <summary>Ends it by force.</summary>
    public void Kill()
    {
        try
        {
            _process.Kill(entireProcessTree: true);
        }
        catch (Exception e) when (e is InvalidOperationException or Win32Exception)
        {
            // It is gone already.
        }
    }

    private static Process Launch(IReadOnlyList<string> command, string folder)
    {
        string file = CommandIdentity.HasFolder(command[0]) ? Path.GetFullPath(Path.Combine(folder, command[0])) : command[0];
        if (Directory.Exists(file) && CommandIdentity.HasFolder(command[0]))
        {
            throw new NotSupportedException($"{command[0]}: cannot be started: it is a folder; name the program in it");
        }

        var start = new ProcessStartInfo
        {
            FileName = file,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            UseShellExecute = false,
            CreateNoWindow = true,
            WorkingDirectory = folder,
        };
        foreach (string argument in command.Skip(1))
        {
            start.ArgumentList.Add(argument);
        }

        try
        {
            return Process.Start(start)!;
        }
        catch (Win32Exception e)
        {
            string why = e.NativeErrorCode switch
            {
                NoSuchFile when folder.Length > 0 && !Directory.Exists(folder) => $"there is no folder {folder}",
                NoSuchFile => "there is no such program; give its path, or install it",
                NoPermission => "it may not be executed; make it executable, or name its interpreter first",
                _ => new Win32Exception(e.NativeErrorCode).Message,
            };
            throw new NotSupportedException($"{command[0]}: cannot be started: {why}", e);
        }
    }

    // The pipe is closed a moment before the process is gone.
    private string HowItEnded(LinkLostException lost)
    {
        if (!_process.WaitForExit(ExitMs))
        {
            Kill();
            return $"The detector closed the pipe to this program, or took nothing from it: {OneLine.Of(lost.Message).TrimEnd('.')}";
        }

        return _process.ExitCode == 0 ? "The detector ended before the stream did" : ExitText.Of(_process.ExitCode);
    }
}
