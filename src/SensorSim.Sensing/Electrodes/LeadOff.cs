// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Electrodes;

/// <summary>What lost contacts do between the electrodes and the amplifier's inputs.</summary>
/// <remarks>
/// The lead-off current drives an open input to its rail with a time constant, 1 − e^(−t/τ), while what the body gives fades by the same
/// measure. Contact takes the input back with the time constant 2/ω of the front end's low-pass (<see cref="FrontEndResponse"/>).
/// </remarks>
internal sealed class LeadOff
{
    // Beyond the input range, so that it is left; without one, far beyond the converter's.
    private const double OverRange = 1.05;
    private const double OverFullScale = 2;
    private const double Nothing = 1e-30;

    private readonly double _railMv;
    private readonly double _keepGoing;
    private readonly double _keepComing;
    private double _positive;
    private double _negative;

    public LeadOff(KeyValues values, SampleGrid grid, double rateHz)
    {
        double range = values[EcgAmplifierKeys.InputRangeMv];
        _railMv = range > 0 ? OverRange * range : OverFullScale * values[EcgAmplifierKeys.FullScaleMv];
        _keepGoing = PortableMath.Exp(-grid.StepSeconds / (values[ElectrodeKeys.RailMs] * 1e-3));
        _keepComing = PortableMath.Exp(-0.5 * FrontEndResponse.Omega(rateHz) * grid.StepSeconds);
    }

    /// <summary>Begins as if what is off had been off for long.</summary>
    /// <param name="off">Electrodes without contact.</param>
    public void Settle(SampleStatus off)
    {
        _positive = (off & SampleStatus.LeadOffPositive) != 0 ? 1 : 0;
        _negative = (off & SampleStatus.LeadOffNegative) != 0 ? 1 : 0;
    }

    /// <summary>Where the inputs would stay with what is off at present, if the body gave a steady voltage [mV].</summary>
    public double SteadyMv(double bodyMv) => ((1 - _positive) * (1 - _negative) * bodyMv) + (_railMv * (_positive - _negative));

    /// <summary>Passes samples on in place.</summary>
    /// <param name="buffer">Between the electrodes; then between the inputs [mV].</param>
    /// <param name="status">Receives the flags.</param>
    /// <param name="off">Electrodes without contact, the same for all of the samples.</param>
    public void Run(Span<double> buffer, Span<ushort> status, SampleStatus off)
    {
        bool isPositiveOff = (off & SampleStatus.LeadOffPositive) != 0;
        bool isNegativeOff = (off & SampleStatus.LeadOffNegative) != 0;
        if (off != SampleStatus.None)
        {
            // An open input shows no pacing spike.
            int keep = isPositiveOff || isNegativeOff ? ~(int)SampleStatus.PacingSpike : ~0;
            for (int i = 0; i < status.Length; i++)
            {
                status[i] = (ushort)((status[i] & keep) | (int)off);
            }
        }

        if (!isPositiveOff && !isNegativeOff && _positive == 0 && _negative == 0)
        {
            return;
        }

        for (int i = 0; i < buffer.Length; i++)
        {
            _positive = Moved(_positive, isPositiveOff);
            _negative = Moved(_negative, isNegativeOff);
            buffer[i] = SteadyMv(buffer[i]);
        }
    }

    public LeadOff Copy() => (LeadOff)MemberwiseClone();

    private double Moved(double share, bool isOff)
    {
        if (isOff)
        {
            return 1 - ((1 - share) * _keepGoing);
        }

        share *= _keepComing;
        return share < Nothing ? 0 : share;
    }
}
