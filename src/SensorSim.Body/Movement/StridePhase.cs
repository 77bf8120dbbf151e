// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>The phase of the stride (two steps): at whole seconds that of the cadence's course and wander, between them a cubic with the same frequency at both ends.</summary>
/// <remarks>
/// The cubic is the definition, so every grid sees the same phase to rounding. It differs from the course by less than 1e-4 turns for
/// wander up to 0.1 Hz (fourth derivative / 384), and spreads a jump of the cadence over the second in which it lies.
/// </remarks>
internal sealed class StridePhase(WanderingPhase nodes)
{
    /// <summary>A second of the phase.</summary>
    /// <param name="node">Its first whole second.</param>
    /// <param name="before">The second before it if at hand: it saves half of the work.</param>
    public StrideSegment Segment(long node, in StrideSegment before)
    {
        double begin = before.EndTurns;
        double beginHz = before.EndHz;
        if (before.Node != node - 1)
        {
            nodes.At(node, out begin, out beginHz);
        }

        nodes.At(node + 1, out double end, out double endHz);
        double grown = end - begin;
        return new StrideSegment(node, begin, beginHz, (3 * grown) - (2 * beginHz) - endHz, beginHz + endHz - (2 * grown), end, endHz);
    }

    /// <summary>Phase at a time [turns].</summary>
    public double Turns(double seconds)
    {
        long node = (long)Math.Floor(seconds);
        return Segment(node, StrideSegment.None).Turns(seconds - node);
    }
}
