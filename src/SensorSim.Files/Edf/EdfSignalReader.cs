// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Edf;

/// <summary>Reads one signal of an EDF or BDF file as physical values, a record at a time: for noise, whatever the signal is.</summary>
public sealed class EdfSignalReader : IDisposable
{
    private readonly EdfFileReader _file;
    private readonly int _signal;
    private readonly int[] _codes;
    private readonly double _minimum;
    private readonly double _gain;
    private int _next;
    private long _previousNs;

    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="label">Label of the signal, upper and lower case alike; null for the only one.</param>
    /// <exception cref="InputFileException">There is no such file or signal, or the file is not what it should be.</exception>
    public EdfSignalReader(string path, string? label = null)
    {
        _file = new EdfFileReader(path);
        try
        {
            _signal = Find(label);
            Signal = _file.Header.Signals[_signal];
            _gain = Signal.Gain;
            _minimum = (double)Signal.PhysicalMinimum;
            if (_gain == 0 || !double.IsFinite(_gain))
            {
                throw _file.Error(FormattableString.Invariant($"signal {Text.InputFiles.Quote(Signal.Label)} goes from {Signal.PhysicalMinimum} to {Signal.PhysicalMaximum}; the physical limits must differ."));
            }

            _codes = new int[_file.RecordCount == 0 ? 0 : Signal.SamplesPerRecord];
            _next = _codes.Length;
        }
        catch
        {
            _file.Dispose();
            throw;
        }
    }

    /// <summary>What the header says of the signal.</summary>
    public EdfSignal Signal { get; }

    /// <summary>Sampling rate [Hz], whole or not.</summary>
    public double RateHz => EdfRates.Hz(_file.Header, Signal);

    /// <summary>Values in the file.</summary>
    public long Count => _file.RecordCount * Signal.SamplesPerRecord;

    /// <summary>Reads the next values.</summary>
    /// <param name="physical">Receives them, in the unit of the signal.</param>
    /// <returns>How many; fewer than there is room for at the end only.</returns>
    /// <exception cref="InputFileException">There is a gap before a record.</exception>
    public int Read(Span<double> physical)
    {
        int done = 0;
        while (done < physical.Length && (_next < _codes.Length || TryLoad()))
        {
            physical[done++] = _minimum + ((_codes[_next++] - (double)Signal.DigitalMinimum) * _gain);
        }

        return done;
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    private bool TryLoad()
    {
        if (_file.Record + 1 >= _file.RecordCount)
        {
            return false;
        }

        _file.Load(_file.Record + 1);
        CheckTime();
        _file.Samples(_signal, 0, _codes);
        _next = 0;
        return true;
    }

    private void CheckTime()
    {
        if (_file.Header.Continuity != EdfContinuity.Discontinuous)
        {
            return;
        }

        long begin = _file.RecordBeginNs();
        double late = ((begin - _previousNs) * 1e-9) - (double)_file.Header.RecordDurationS;
        if (_file.Record > 0 && Math.Abs(late) * RateHz > 0.5)
        {
            throw _file.Error(_file.Record, FormattableString.Invariant($"there is a gap of {late:0.######} s before it; a signal must be unbroken here"));
        }

        _previousNs = begin;
    }

    private int Find(string? label)
    {
        EdfHeader header = _file.Header;
        int[] fitting = [.. Enumerable.Range(0, header.Signals.Count).Where(i => !header.Signals[i].IsAnnotation
            && (label is null || string.Equals(header.Signals[i].Label, label.Trim(), StringComparison.OrdinalIgnoreCase)))];
        return fitting.Length == 1 ? fitting[0] : throw _file.Error(
            label is null ? $"there is not one signal but {fitting.Length}; say which of {EdfSignalMap.Labels(header)}."
            : fitting.Length == 0 ? $"there is no signal {Text.InputFiles.Quote(label)}; the signals are {EdfSignalMap.Labels(header)}."
            : $"there are {fitting.Length} signals {Text.InputFiles.Quote(label)}; a signal must be the only one of its label.");
    }
}
