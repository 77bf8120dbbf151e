// SPDX-License-Identifier: MIT
using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Identity;
using SensorSim.Signals.Keys;

namespace SensorSim.Detectors.CLibraries;

/// <summary>
/// Makes detectors of a C library. Each runs in a child process, which is handed on from one detector to the next; or, when wanted,
/// in this process.
/// </summary>
public sealed class CLibraryFactory : IDetectorFactory
{
    private readonly string _path;
    private readonly double _hangS;
    private readonly string _name;
    private readonly CLibrary? _library;
    private readonly ConcurrentBag<DetectorChild> _idle = [];
    private int _childCount;
    private volatile bool _isDisposed;

    /// <summary>Opens a library.</summary>
    /// <param name="path">Path of the shared library.</param>
    /// <param name="isInProcess">Whether it is loaded into this process: its crash is then the crash of everything.</param>
    /// <param name="hangS">Longest time for a block in a child [s], above 0.</param>
    /// <exception cref="NotSupportedException">It cannot be used; the message says why.</exception>
    /// <exception cref="IOException">The child cannot be started.</exception>
    public CLibraryFactory(string path, bool isInProcess = false, double hangS = 10)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hangS);
        _path = path;
        _hangS = hangS;
        LibraryFile.Check(path);
        if (isInProcess)
        {
            GuestCode.Enter(path);
            _library = LoadApart(path);
            (_name, Constants) = (_library.Name, _library.Constants);
        }
        else
        {
            DetectorChild first = First();
            (_name, Constants) = (first.Name, first.Constants);
            _idle.Add(first);
        }

        Identity = $"{_name} sha256:{Sha256Sum.OfFile(path)}";
    }

    /// <inheritdoc/>
    public string Identity { get; }

    /// <inheritdoc/>
    public IReadOnlyList<NumberKey> Constants { get; }

    /// <summary>Child processes started so far.</summary>
    public int ChildCount => _childCount;

    /// <inheritdoc/>
    public IDetector Create(IReadOnlyDictionary<string, double> constants)
    {
        ArgumentNullException.ThrowIfNull(constants);
        ConstantValues.Check(_path, Constants, constants);
        return _library is null ? new ChildDetector(this, _name, constants) : new CLibraryDetector(_library, constants, isArithmeticWatched: true);
    }

    /// <summary>Ends the children that no detector has; the others end when their detectors are disposed of.</summary>
    public void Dispose()
    {
        _isDisposed = true;
        while (_idle.TryTake(out DetectorChild? child))
        {
            child.Dispose();
        }
    }

    /// <summary>A child for a detector: an idle one, or else a new one.</summary>
    internal DetectorChild Take()
    {
        if (_idle.TryTake(out DetectorChild? child))
        {
            return child;
        }

        Interlocked.Increment(ref _childCount);
        return new DetectorChild(_path, _hangS);
    }

    /// <summary>Takes a child back.</summary>
    internal void Return(DetectorChild child)
    {
        if (child.IsBroken || _isDisposed)
        {
            child.Dispose();
        }
        else
        {
            _idle.Add(child);
        }
    }

    // Whoever cannot even load the library has nothing to study.
    private DetectorChild First()
    {
        try
        {
            return Take();
        }
        catch (Exception e) when (e is DetectorCrashedException or DetectorHungException)
        {
            throw new NotSupportedException($"{_path}: cannot be loaded: {e.Message}", e);
        }
    }

    // On a thread of its own: what loading does to the arithmetic of the processor ends with it.
    private static CLibrary LoadApart(string path)
    {
        CLibrary? library = null;
        ExceptionDispatchInfo? failure = null;
        var thread = new Thread(() =>
        {
            try
            {
                library = new CLibrary(path);
                if (!Arithmetic.IsIntact())
                {
                    throw new NotSupportedException($"{path}: {Arithmetic.Complaint}");
                }
            }
            catch (Exception e)
            {
                failure = ExceptionDispatchInfo.Capture(e);
            }
        });
        thread.Start();
        thread.Join();
        failure?.Throw();
        return library!;
    }
}
