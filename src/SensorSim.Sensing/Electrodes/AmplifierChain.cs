// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The ECG amplifier from its input to its output: input range, high-pass, low-pass.</summary>
internal sealed class AmplifierChain
{
    private const int Together = 16;

    private readonly double _rangeMv;
    private readonly HighPass? _highPass;
    private readonly LowPass? _lowPass;

    private AmplifierChain(KeyValues values, SampleGrid grid, double rateHz)
    {
        _rangeMv = values[EcgAmplifierKeys.InputRangeMv];
        double high = values[EcgAmplifierKeys.HighPassHz];
        double low = values[EcgAmplifierKeys.LowPassHz];
        _highPass = high > 0 ? new HighPass(high, grid.StepSeconds) : null;
        _lowPass = low > 0 ? new LowPass(low, rateHz) : null;
    }

    private AmplifierChain(AmplifierChain other)
    {
        _rangeMv = other._rangeMv;
        _highPass = other._highPass?.Copy();
        _lowPass = other._lowPass?.Copy();
    }

    /// <summary>The chain of a scenario; null when it changes nothing.</summary>
    public static AmplifierChain? Create(KeyValues values, SampleGrid grid, double rateHz) =>
        values[EcgAmplifierKeys.InputRangeMv] > 0 || values[EcgAmplifierKeys.HighPassHz] > 0 || values[EcgAmplifierKeys.LowPassHz] > 0
            ? new AmplifierChain(values, grid, rateHz)
            : null;

    /// <summary>Passes samples through in place.</summary>
    /// <param name="buffer">At the electrodes; then at the output [mV].</param>
    /// <param name="status">Receives <see cref="SampleStatus.Saturated"/> where the input range is left.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="steadyMv">What the input was for long before sample 0; asked for there only [mV].</param>
    public void Run(Span<double> buffer, Span<ushort> status, long firstIndex, double steadyMv)
    {
        if (_rangeMv > 0)
        {
            Clip(buffer, status);
        }

        if (firstIndex == 0 && buffer.Length > 0)
        {
            _highPass?.Settle(buffer[0], _rangeMv > 0 ? Math.Min(Math.Max(steadyMv, -_rangeMv), _rangeMv) : steadyMv);
        }

        for (int done = 0; done < buffer.Length; done += LookAheadFilter.Piece)
        {
            Filter(buffer[done..Math.Min(buffer.Length, done + LookAheadFilter.Piece)], firstIndex + done == 0);
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmplifierChain Copy() => new(this);

    // One filter writes where the other one reads.
    private void Filter(Span<double> part, bool isFirst)
    {
        if (_lowPass is null)
        {
            _highPass?.Run(part, part);
            return;
        }

        Span<double> inputs = _lowPass.Inputs(part.Length);
        if (_highPass is null)
        {
            part.CopyTo(inputs);
        }
        else
        {
            _highPass.Run(part, inputs);
        }

        if (isFirst)
        {
            _lowPass.Settle(inputs[0]);
        }

        _lowPass.RunInputs(part);
    }

    private void Clip(Span<double> buffer, Span<ushort> status)
    {
        if (buffer.Length < Together)
        {
            ClipEach(buffer, status);
            return;
        }

        // Sixteen at a time where none leaves the range: nearly always. The last ones may be looked at twice.
        var range = Vector256.Create(_rangeMv);
        ref double b = ref MemoryMarshal.GetReference(buffer);
        for (int done = 0; done < buffer.Length; done += Together)
        {
            int from = Math.Min(done, buffer.Length - Together);
            Vector256<double> beyond =
                (Vector256.GreaterThan(Vector256.Abs(Vector256.LoadUnsafe(ref b, (nuint)from)), range)
                    | Vector256.GreaterThan(Vector256.Abs(Vector256.LoadUnsafe(ref b, (nuint)from + 4)), range))
                | (Vector256.GreaterThan(Vector256.Abs(Vector256.LoadUnsafe(ref b, (nuint)from + 8)), range)
                    | Vector256.GreaterThan(Vector256.Abs(Vector256.LoadUnsafe(ref b, (nuint)from + 12)), range));
            if (beyond.AsInt64() != Vector256<long>.Zero)
            {
                ClipEach(buffer.Slice(from, Together), status[from..]);
            }
        }
    }

    private void ClipEach(Span<double> buffer, Span<ushort> status)
    {
        for (int i = 0; i < buffer.Length; i++)
        {
            double x = buffer[i];
            if (Math.Abs(x) > _rangeMv)
            {
                buffer[i] = Math.CopySign(_rangeMv, x);
                status[i] |= (ushort)SampleStatus.Saturated;
            }
        }
    }
}
