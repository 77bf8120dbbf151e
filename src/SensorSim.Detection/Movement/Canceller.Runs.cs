// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

// Samples between two steps of the reference, and those that come while it is still, go through together.
public partial struct Canceller
{
    /// <summary>Takes samples of the light up to the next step of the reference.</summary>
    /// <param name="lights">The codes, one at least; get the codes without the artefact.</param>
    /// <param name="artefacts">Zeros, get what is taken off; or none.</param>
    /// <param name="reference">The movement up to the first of them.</param>
    /// <param name="probe">Sees intermediate values.</param>
    public void Take<TProbe>(scoped Span<int> lights, scoped Span<int> artefacts, in MovementReference reference, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        // Never more than a step beyond the last one: where the acceleration stays away, the artefact stays where it is.
        int place = _place256 + _perLight256;
        if (_steps != reference.Steps || _isFresh)
        {
            Step(lights[0], reference, ref probe);
            place = 0;
        }

        int estimate = _estimate;
        int slope = _slope;
        if ((estimate | slope) == 0)
        {
            for (int i = 0; i < lights.Length; i++)
            {
                lights[i] = Sat.Narrow(lights[i], NormalisedStep.EstimateRail);
                probe.See(ProbePoint.CancellerEstimate, 0);
                probe.See(ProbePoint.CancellerOutput, lights[i]);
            }

            place += (lights.Length - 1) * _perLight256;
            _place256 = place < 256 ? place : 256;
            Estimate = 0;
            return;
        }

        int taken = 0;
        for (int i = 0; i < lights.Length; i++)
        {
            place = place < 256 ? place : 256;
            taken = estimate + Shift.Round(slope * place, 8);
            if (i < artefacts.Length)
            {
                artefacts[i] = taken;
            }

            lights[i] = Sat.Narrow(lights[i] - taken, NormalisedStep.EstimateRail);
            probe.See(ProbePoint.CancellerEstimate, taken);
            probe.See(ProbePoint.CancellerOutput, lights[i]);
            place += _perLight256;
        }

        _place256 = place - _perLight256;
        Estimate = taken;
    }

    /// <summary>Takes samples of the light that have come while the reference was still: nothing is taken off.</summary>
    /// <param name="lights">The codes, 32 at most; stay as they are but for the rail.</param>
    /// <param name="stepped">Bit i: the reference has made a step between sample i − 1 and sample i.</param>
    /// <param name="before">Its steps before the first sample.</param>
    /// <param name="after">Its steps at the last one.</param>
    /// <param name="probe">Sees intermediate values.</param>
    public void TakeStill<TProbe>(scoped Span<int> lights, uint stepped, int before, int after, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (_isFresh || _steps != before)
        {
            // A step that it has not seen yet.
            stepped |= 1;
        }

        if (_isFresh)
        {
            _isFresh = false;
            _level = lights[0] << LevelFraction;
        }

        if (Avx2.IsSupported && lights.Length >= Lanes.Count && probe.MostAtOnce >= Word32.Length)
        {
            PassStillLanes(lights, stepped);
        }
        else
        {
            PassStill(lights, stepped, ref probe);
        }

        Estimate = 0;
        if (stepped != 0)
        {
            _steps = after;
            _estimate = 0;
            _slope = 0;
            IsActive = false;
        }
    }

    private void PassStill<TProbe>(scoped Span<int> lights, uint stepped, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        int level = _level;
        int place = _place256;
        uint left = stepped;
        for (int i = 0; i < lights.Length; i++)
        {
            place += _perLight256;
            if ((left & 1) != 0)
            {
                place = 0;
                _ = WithoutLevel(ref level, lights[i]);
            }

            left >>= 1;
            lights[i] = Sat.Narrow(lights[i], NormalisedStep.EstimateRail);
            probe.See(ProbePoint.CancellerEstimate, 0);
            probe.See(ProbePoint.CancellerOutput, lights[i]);
        }

        _level = level;
        _place256 = place < 256 ? place : 256;
    }
}
