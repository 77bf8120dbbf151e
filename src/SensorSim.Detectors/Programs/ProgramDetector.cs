// SPDX-License-Identifier: MIT
using SensorSim.Links;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Programs;

/// <summary>A program as a detector. After a failure the next start has a new process.</summary>
internal sealed class ProgramDetector : IDetector
{
    private readonly ProcessFactory _factory;
    private DetectorProgram? _program;

    public ProgramDetector(ProcessFactory factory, string name)
    {
        _factory = factory;
        Name = name;
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        if (_program is { Detector.IsBroken: true })
        {
            Release();
        }

        _program ??= _factory.Take();
        try
        {
            _program.Detector.Start(format);
        }
        catch (IOException e)
        {
            // It has been heard before, so by now it is the detector's failure.
            throw new DetectorCrashedException(e.Message.TrimEnd('.'), e);
        }
        catch (DetectorHungException e)
        {
            throw Ended(e);
        }
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        try
        {
            _program!.Detector.Process(block, output);
        }
        catch (DetectorHungException e)
        {
            throw Ended(e);
        }
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output)
    {
        try
        {
            _program!.Detector.Flush(output);
        }
        catch (DetectorHungException e)
        {
            throw Ended(e);
        }
    }

    /// <summary>Gives the process back for the next detector.</summary>
    public void Dispose() => Release();

    private DetectorHungException Ended(DetectorHungException e)
    {
        _program!.Kill();
        return new DetectorHungException(e.Message + " and was ended", e);
    }

    private void Release()
    {
        if (_program is { } program)
        {
            _program = null;
            _factory.Return(program);
        }
    }
}
