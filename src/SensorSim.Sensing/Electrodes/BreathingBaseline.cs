// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The sine of breathing's phase on the ECG's grid: exact at anchors, every 64th sample or less, a straight phase in between.</summary>
/// <remarks>
/// Anchors are no more than 0.65 s apart (but eight samples), as those of <see cref="RotationGroup"/>. All samples after an anchor are made at
/// once (<see cref="SteadySines"/>), so no cut changes a bit.
/// </remarks>
/// <param name="phase">Phase of breathing.</param>
/// <param name="grid">Sampling instants.</param>
internal sealed class BreathingBaseline(WanderingPhase phase, SampleGrid grid)
{
    private const int Most = 64;
    private const double LongestSeconds = 0.65;

    private readonly int _length = Length(grid.StepSeconds);
    private readonly double[] _sines = new double[Most];
    private long _stretch = long.MinValue;
    private double _endTurns;

    /// <summary>Adds the sine to samples.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample, at least 0.</param>
    /// <param name="amplitude">Its amplitude.</param>
    public void Add(Span<double> buffer, long firstIndex, double amplitude)
    {
        for (int done = 0; done < buffer.Length;)
        {
            long stretch = (firstIndex + done) / _length;
            int place = (int)(firstIndex + done - (stretch * _length));
            if (stretch != _stretch)
            {
                Make(stretch);
            }

            int count = Math.Min(buffer.Length - done, _length - place);
            SpanLanes.AddProduct(buffer.Slice(done, count), _sines.AsSpan(place, count), amplitude);
            done += count;
        }
    }

    /// <summary>An independent copy: what is kept can be made again.</summary>
    public BreathingBaseline Copy() => new(phase, grid);

    private static int Length(double stepSeconds)
    {
        int length = Most;
        while (length > SteadySines.Group && length * stepSeconds > LongestSeconds)
        {
            length /= 2;
        }

        return length;
    }

    private void Make(long stretch)
    {
        // Reading on, an anchor's phase is the one the last stretch ended with: the same number, not asked for twice.
        long first = stretch * _length;
        double begin = _stretch == stretch - 1 ? _endTurns : phase.Turns(grid.Seconds(first));
        _endTurns = phase.Turns(grid.Seconds(first + _length));
        _stretch = stretch;
        double step = (_endTurns - begin) / _length;
        PortableMath.SinCosTurns(Vector256.Create(begin, step, 0, 0), out Vector256<double> sin, out Vector256<double> cos);
        SteadySines.FillSlow(
            new Phasor(cos.GetElement(0), sin.GetElement(0)), new Phasor(cos.GetElement(1), sin.GetElement(1)), _sines.AsSpan(0, _length));
    }
}
