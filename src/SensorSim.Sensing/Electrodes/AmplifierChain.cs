// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The ECG amplifier from its input to its output: input range, high-pass, low-pass.</summary>
internal sealed class AmplifierChain
{
    private readonly double _rangeMv;
    private readonly bool _hasHighPass;
    private readonly bool _hasLowPass;
    private HighPass _highPass;
    private LowPass _lowPass;

    private AmplifierChain(KeyValues values, SampleGrid grid, double rateHz)
    {
        _rangeMv = values[EcgAmplifierKeys.InputRangeMv];
        double high = values[EcgAmplifierKeys.HighPassHz];
        double low = values[EcgAmplifierKeys.LowPassHz];
        _hasHighPass = high > 0;
        _hasLowPass = low > 0;
        _highPass = _hasHighPass ? new HighPass(high, grid.StepSeconds) : default;
        _lowPass = _hasLowPass ? new LowPass(low, rateHz) : default;
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

        if (_hasHighPass)
        {
            if (firstIndex == 0 && buffer.Length > 0)
            {
                _highPass.Settle(buffer[0], _rangeMv > 0 ? Math.Min(Math.Max(steadyMv, -_rangeMv), _rangeMv) : steadyMv);
            }

            _highPass.Run(buffer);
        }

        if (_hasLowPass)
        {
            if (firstIndex == 0 && buffer.Length > 0)
            {
                _lowPass.Settle(buffer[0]);
            }

            _lowPass.Run(buffer);
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmplifierChain Copy() => (AmplifierChain)MemberwiseClone();

    private void Clip(Span<double> buffer, Span<ushort> status)
    {
        status = status[..buffer.Length];
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
