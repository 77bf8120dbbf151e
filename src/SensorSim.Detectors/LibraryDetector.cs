// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pipeline;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors;

/// <summary>The project's own fixed-point library behind the detector contract.</summary>
public sealed class LibraryDetector : LibraryDetector<NoProbe>
{
    /// <summary>Creates the library without knowledge of sensor or wearer.</summary>
    public LibraryDetector()
        : this(null)
    {
    }

    /// <summary>Creates the library.</summary>
    /// <param name="calibration">What it is told of sensor and wearer; null: nothing.</param>
    /// <param name="constants">Constants that differ from their usual values, by name (<see cref="Choices.LibraryConstants"/>); null: none.</param>
    /// <exception cref="NotSupportedException">There is no such constant, or it cannot have the value.</exception>
    public LibraryDetector(DetectorCalibration? calibration, IReadOnlyDictionary<string, double>? constants = null)
        : base(calibration, constants)
    {
    }

    /// <summary>Creates the library from its own numbers, as firmware is told them.</summary>
    /// <param name="options">The numbers.</param>
    public LibraryDetector(in LibraryOptions options)
        : base(options)
    {
    }
}

/// <summary>The library with a probe on its intermediate values.</summary>
/// <remarks>
/// Beats come from the ECG channel; pulses from infrared, without it from red, else from green. Either signal may be missing. Samples whose
/// status says lead-off, no contact, saturated or over range count as a gap.
/// </remarks>
/// <typeparam name="TProbe">The probe.</typeparam>
public abstract class LibraryDetector<TProbe> : IDetector
    where TProbe : struct, IProbe
{
    private readonly Answer[] _room = new Answer[AnswerList.Most];
    private readonly LibraryOptions _options;
    private Library _library;
    private TProbe _probe;
    private BlockCutter _cutter = BlockCutter.Empty;
    private AnswerWriter _writer;

    /// <summary>Creates the library.</summary>
    /// <param name="calibration">What it is told of sensor and wearer; null: nothing.</param>
    /// <param name="constants">Constants that differ from their usual values, by name; null: none.</param>
    protected LibraryDetector(DetectorCalibration? calibration, IReadOnlyDictionary<string, double>? constants = null)
    {
        LibraryOptions options = OptionsOf.Calibration(calibration);
        options.Tuning = constants is null ? options.Tuning : Choices.LibraryConstants.Of(constants);
        _options = options;
    }

    /// <summary>Creates the library from its own numbers.</summary>
    /// <param name="options">The numbers.</param>
    protected LibraryDetector(in LibraryOptions options) => _options = options;

    /// <inheritdoc/>
    public string Name => "sensorsim 0.9";

    /// <summary>Why the latest arrival time of 30 s gave no pressure; null when it did, or when none came.</summary>
    public string? PressureRefusal => _library.PressureRefusal == Detection.Pressure.PressureRefusal.None
        ? null : CalibrationCheck.Sentence(_library.PressureRefusal);

    /// <summary>The probe.</summary>
    public ref TProbe Probe => ref _probe;

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        LibrarySetup setup = SetupOf.Stream(format);
        if (!setup[ChannelRole.Ecg].IsThere && setup.Light == ChannelRole.None)
        {
            throw new NotSupportedException("The stream has neither ecg nor red, infrared or green; the library needs one of them.");
        }

        ChannelRole refused = _library.Start(setup, _options);
        if (refused == ChannelRole.Ecg)
        {
            throw new NotSupportedException(
                $"Channel ecg has {setup[refused].RateHz} Hz; the library works from {BeatWindows.MinimumRateHz} to {BeatWindows.MaximumRateHz} Hz.");
        }

        if (refused != ChannelRole.None)
        {
            throw new NotSupportedException(
                $"Channel {SetupOf.NameOf(refused).Text()} has {setup[refused].RateHz} Hz; the library works from {PulseWindows.MinimumRateHz} to {PulseWindows.MaximumRateHz} Hz.");
        }

        _cutter = new BlockCutter(format);
        _writer = new AnswerWriter(format);
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(output);
        _cutter.Begin(block);
        var answers = new AnswerList(_room);
        LibraryInput input = default;
        while (_cutter.TryNext(_library.SliceEndTick, ref input, out long untilTick))
        {
            _library.Take(input, untilTick, ref answers, ref _probe);
            Write(ref answers, output);
        }
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        var answers = new AnswerList(_room);
        _library.Flush(ref answers);
        Write(ref answers, output);
    }

    /// <summary>Nothing to let go of.</summary>
    public void Dispose() => GC.SuppressFinalize(this);

    private void Write(ref AnswerList answers, DetectorOutput output)
    {
        for (int i = 0; i < answers.Count; i++)
        {
            _writer.Write(answers[i], output);
        }

        answers.Clear();
    }
}
