// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Assemblies;
using SensorSim.Detectors.CLibraries;

namespace SensorSim.Detectors.Choices;

/// <summary>Looks after the process while a user's detector runs inside it.</summary>
/// <remarks>
/// A program asks for it once with <see cref="Guard"/>. From the first such detector on, whoever ends the process before
/// <see cref="Release"/> makes it end with exit code 1 and a sentence, an exception on a thread of the detector is told in one sentence,
/// and what the detector prints goes to standard error. Where nobody asks (as in tests of this code) only complaints are kept.
/// </remarks>
public static class GuestCode
{
    private const int MostComplaints = 3;

    private static readonly Lock s_lock = new();
    private static readonly List<string> s_complaints = [];
    private static Action? s_silence;
    private static string _file = "";

    /// <summary>Whether a detector was loaded into this process.</summary>
    public static bool IsUsed { get; private set; }

    /// <summary>Asks for the process to be looked after.</summary>
    /// <param name="silence">Called before the first detector is loaded: turns the runtime's own standard output to standard error.</param>
    public static void Guard(Action silence) => s_silence = silence;

    /// <summary>The regular end has come, or the user ends the process: nothing is held against anyone any more.</summary>
    public static void Release() => ExitGuard.Disarm();

    /// <summary>What was found after the runs, and forgets it: a sentence each, without repetitions.</summary>
    public static IReadOnlyList<string> TakeComplaints()
    {
        lock (s_lock)
        {
            string[] all = [.. s_complaints];
            s_complaints.Clear();
            return all;
        }
    }

    /// <summary>Notes what no verdict can tell any more.</summary>
    internal static void Complain(string sentence)
    {
        lock (s_lock)
        {
            if (s_complaints.Count < MostComplaints && !s_complaints.Contains(sentence))
            {
                s_complaints.Add(sentence);
            }
        }
    }

    /// <summary>A detector is about to be loaded into this process.</summary>
    internal static void Enter(string file)
    {
        lock (s_lock)
        {
            bool isFirst = !IsUsed;
            IsUsed = true;
            if (s_silence is null)
            {
                return;
            }

            _file = _file.Length == 0 ? file : _file.Contains(file, StringComparison.Ordinal) ? _file : $"{_file}, {file}";
            if (isFirst)
            {
                s_silence();
                ResultStream.MoveAway();
                AppDomain.CurrentDomain.UnhandledException += (_, e) => OnUnhandled(e.ExceptionObject as Exception);
            }

            ExitGuard.Arm($"sensorsim: {OneLine.Of(_file)}: the detector ended the whole command (by exit or the like); its answers count for nothing\n");
        }
    }

    // Only what comes out of the user's own assembly: a fault of this program keeps its stack trace.
    private static void OnUnhandled(Exception? e)
    {
        if (e is not null && DetectorLoadContext.HasThrown(e))
        {
            ExitGuard.EndWith($"sensorsim: {OneLine.Of(_file)}: the detector threw {e.GetType().Name} on a thread of its own: {OneLine.Of(e.Message)}\n");
        }
    }
}
