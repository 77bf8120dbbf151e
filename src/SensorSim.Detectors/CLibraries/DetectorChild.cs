// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;

namespace SensorSim.Detectors.CLibraries;

/// <summary>A child process that has a C library loaded. Used by one detector at a time; not safe for several threads at once.</summary>
internal sealed class DetectorChild : IDisposable
{
    /// <summary>What is said of a library that came between this program and the child.</summary>
    public const string Disturbed =
        "The detector disturbed the pipe to its process; it must leave standard input and output and memory of others alone";

    // A new process has to load a runtime first; that is none of the library's fault.
    private const double ShortestStartS = 60;
    private const int ExitMs = 5000;

    private readonly Process _process;
    private readonly Stream _requests;
    private readonly Stream _replies;
    private readonly FrameReader _reply = new();
    private readonly Timer _watch;
    private readonly double _hangS;
    private volatile bool _hasHung;

    /// <summary>Starts a process and has it load a library.</summary>
    /// <param name="path">Path of the library.</param>
    /// <param name="hangS">Longest time for an answer [s].</param>
    /// <exception cref="NotSupportedException">The library cannot be used; the message says why.</exception>
    /// <exception cref="DetectorCrashedException">It crashes while it is loaded.</exception>
    /// <exception cref="DetectorHungException">It hangs while it is loaded.</exception>
    /// <exception cref="IOException">The process cannot be started.</exception>
    public DetectorChild(string path, double hangS)
    {
        _process = ChildProgram.Start();
        _requests = _process.StandardInput.BaseStream;
        _replies = _process.StandardOutput.BaseStream;
        _watch = new Timer(_ => OnHanging());
        _hangS = Math.Max(hangS, ShortestStartS);
        try
        {
            (Name, Constants) = Ask(Frame.Begin(FrameKind.Load).AddText(path), FrameKind.Described, Messages.ReadDescription);
        }
        catch
        {
            Dispose();
            throw;
        }

        _hangS = hangS;
    }

    /// <summary>Name and version of the library.</summary>
    public string Name { get; }

    /// <summary>Its constants.</summary>
    public IReadOnlyList<NumberKey> Constants { get; }

    /// <summary>For the next request.</summary>
    public FrameWriter Frame { get; } = new();

    /// <summary>Whether it failed and must not be used again.</summary>
    public bool IsBroken { get; private set; }

    /// <summary>Sends a request and waits for the reply.</summary>
    /// <param name="request">The request, <see cref="Frame"/> filled.</param>
    /// <param name="expected">Kind of a good reply.</param>
    /// <param name="read">Takes a good reply apart.</param>
    /// <exception cref="NotSupportedException">The library refuses; the child can be used further.</exception>
    /// <exception cref="DetectorCrashedException">The library crashed or broke the contract.</exception>
    /// <exception cref="DetectorHungException">The library hung.</exception>
    public T Ask<T>(FrameWriter request, FrameKind expected, Func<FrameReader, T> read)
    {
        try
        {
            Exchange(request);
            return _reply.Kind switch
            {
                FrameKind.Refused => throw new NotSupportedException(_reply.TakeText()),
                FrameKind.Broken => throw Failed(_reply.TakeText()),
                _ when _reply.Kind == expected => read(_reply),
                _ => throw new InvalidDataException("The reply is of another kind."),
            };
        }
        catch (InvalidDataException)
        {
            throw Failed(Disturbed);
        }
    }

    /// <summary>Ends the process: by closing its input, and by force when that does not help or it is broken.</summary>
    public void Dispose()
    {
        _watch.Dispose();
        try
        {
            _requests.Dispose();
        }
        catch (IOException)
        {
            // It is gone already.
        }

        if (IsBroken || !_process.WaitForExit(ExitMs))
        {
            Kill();
        }

        _replies.Dispose();
        _process.Dispose();
    }

    private void Exchange(FrameWriter request)
    {
        bool isThere;
        _watch.Change(TimeSpan.FromSeconds(_hangS), Timeout.InfiniteTimeSpan);
        try
        {
            request.SendTo(_requests);
            isThere = _reply.ReadFrom(_replies);
        }
        catch (IOException)
        {
            isThere = false;
        }
        catch (InvalidDataException) when (_hasHung)
        {
            // It was ended in the middle of a reply.
            isThere = false;
        }
        finally
        {
            _watch.Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        }

        if (!isThere)
        {
            IsBroken = true;
            throw _hasHung
                ? new DetectorHungException(string.Create(CultureInfo.InvariantCulture, $"The detector did not return within {_hangS:0.###} s and was ended"))
                : new DetectorCrashedException(HowItEnded());
        }
    }

    private DetectorCrashedException Failed(string sentence)
    {
        IsBroken = true;
        return new DetectorCrashedException(sentence);
    }

    private string HowItEnded()
    {
        // The pipe is closed a moment before the process is gone.
        if (_process.WaitForExit(ExitMs))
        {
            return ExitText.Of(_process.ExitCode);
        }

        Kill();
        return "The detector closed the pipe to its process";
    }

    private void OnHanging()
    {
        _hasHung = true;
        Kill();
    }

    private void Kill()
    {
        try
        {
            _process.Kill(entireProcessTree: true);
        }
        catch (InvalidOperationException)
        {
            // It is gone already.
        }
    }
}
