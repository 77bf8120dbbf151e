// SPDX-License-Identifier: MIT
using System.Collections.Concurrent;
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;

namespace SensorSim.Detectors.Programs;

/// <summary>
/// Makes detectors of a program, in any language, that speaks the link protocol over its standard input and output. A process is handed on from one
/// detector to the next. In words: <c>docs/own-detector.md</c>.
/// </summary>
public sealed class ProcessFactory : IDetectorFactory
{
    private readonly IReadOnlyList<string> _command;
    private readonly string _folder;
    private readonly double _hangS;
    private readonly DetectorCalibration? _calibration;
    private readonly string _name;
    private readonly ConcurrentBag<DetectorProgram> _idle = [];
    private int _processCount;
    private volatile bool _isDisposed;

    /// <summary>Starts the program once and hears who it is.</summary>
    /// <param name="command">Program and arguments, at least one word. A program whose word has a folder in it is looked for from <paramref name="folder"/> on.</param>
    /// <param name="folder">Folder that it runs in; empty: that of this program.</param>
    /// <param name="hangS">Longest time without any progress on a block [s], above 0.</param>
    /// <param name="calibration">What it is told of sensor and wearer; null: nothing.</param>
    /// <exception cref="NotSupportedException">It cannot be started or does not speak the protocol; the message says why.</exception>
    public ProcessFactory(IReadOnlyList<string> command, string folder = "", double hangS = 10, DetectorCalibration? calibration = null)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hangS);
        ArgumentOutOfRangeException.ThrowIfLessThan(command.Count, 1, nameof(command));
        _command = command;
        _folder = folder;
        _hangS = hangS;
        _calibration = calibration;
        DetectorProgram first = First();
        _name = first.Detector.Name;
        _idle.Add(first);
        Identity = $"{_name} sha256:{CommandIdentity.Sha256(command, folder)}";
    }

    /// <inheritdoc/>
    public string Identity { get; }

    /// <summary>None: the protocol has no list of a program's constants.</summary>
    public IReadOnlyList<NumberKey> Constants => [];

    /// <summary>Processes started so far.</summary>
    public int ProcessCount => _processCount;

    /// <inheritdoc/>
    public IDetector Create(IReadOnlyDictionary<string, double> constants)
    {
        ArgumentNullException.ThrowIfNull(constants);
        ConstantValues.Check(CommandText.Of(_command), Constants, constants);
        return new ProgramDetector(this, _name);
    }

    /// <summary>Ends the processes that no detector has; the others end when their detectors are disposed of.</summary>
    public void Dispose()
    {
        _isDisposed = true;
        while (_idle.TryTake(out DetectorProgram? program))
        {
            program.Dispose();
        }
    }

    /// <summary>A process for a detector: an idle one, or else a new one.</summary>
    internal DetectorProgram Take()
    {
        if (_idle.TryTake(out DetectorProgram? program))
        {
            return program;
        }

        Interlocked.Increment(ref _processCount);
        return new DetectorProgram(_command, _folder, _hangS, _calibration);
    }

    /// <summary>Takes a process back.</summary>
    internal void Return(DetectorProgram program)
    {
        if (program.Detector.IsBroken || _isDisposed)
        {
            program.Dispose();
        }
        else
        {
            _idle.Add(program);
        }
    }

    // Whoever cannot even be greeted has nothing to study.
    private DetectorProgram First()
    {
        try
        {
            return Take();
        }
        catch (DetectorCrashedException e)
        {
            throw new NotSupportedException($"{CommandText.Of(_command)}: cannot be used: {OneLine.Of(e.Message)}", e);
        }
    }
}
