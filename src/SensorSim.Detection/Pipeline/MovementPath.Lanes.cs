// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

/// <content>What comes beside a run of the light, at once. No lanes here, but left out of the C like them: only a reference in lanes gains by it.</content>
internal partial struct MovementPath
{
    /// <summary>Whether no two samples of the acceleration come with one of the light, from a tick on, and all that are left have three axes.</summary>
    /// <param name="beside">What lies beside the light.</param>
    /// <param name="tick">Tick of the first sample of the light.</param>
    /// <param name="lightStep">Ticks from one to the next.</param>
    public readonly bool CanTakeStill(in Beside beside, long tick, int lightStep)
    {
        long index = beside.X.FirstIndex + beside.XAt;
        int left = beside.X.Codes.Length - beside.XAt;
        return _step >= lightStep && beside.XDue > tick - lightStep && Has(beside.Y, index, left) && Has(beside.Z, index, left);
    }

    /// <summary>Takes what comes beside a run of the light, as long as the reference is still.</summary>
    /// <param name="beside">What lies beside the light.</param>
    /// <param name="tick">Tick of the first sample of the light.</param>
    /// <param name="lightStep">Ticks from one to the next.</param>
    /// <param name="lights">Samples of the light, 32 at most.</param>
    /// <param name="stepped">Bit i: the reference has made a step with sample i of the light, and is still.</param>
    /// <param name="found">Gets what is found.</param>
    /// <param name="probe">Sees the level.</param>
    /// <returns>Samples of the light before the one with which it is not still any more.</returns>
    public int TakeStill<TProbe>(ref Beside beside, long tick, int lightStep, int lights, out uint stepped, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        // With which samples of the light they come, a bit each.
        uint places = 0;
        int count = 0;
        int left = beside.X.Codes.Length - beside.XAt;
        long lightTick = tick;
        long end = tick + ((long)lights * lightStep);
        long due = beside.XDue;
        for (uint bit = 1; count < left; count++, due += _step)
        {
            for (; lightTick < due && lightTick < end; lightTick += lightStep)
            {
                bit <<= 1;
            }

            if (lightTick >= end)
            {
                break;
            }

            places |= bit;
        }

        stepped = 0;
        if (count == 0)
        {
            return lights;
        }

        long index = beside.X.FirstIndex + beside.XAt;
        ReadOnlySpan<int> x = beside.X.Codes.Slice(beside.XAt, count);
        ReadOnlySpan<int> y = beside.Y.Codes.Slice((int)(index - beside.Y.FirstIndex), count);
        ReadOnlySpan<int> z = beside.Z.Codes.Slice((int)(index - beside.Z.FirstIndex), count);
        int taken = Reference.TakeStill(x, y, z, out uint steps);
        beside.XAt += taken;
        beside.XDue = Beside.DueOf(beside.X, beside.XAt, _step);
        for (int i = 0; i < taken; i++)
        {
            TakeLevelAndCadence(x[i], y[i], z[i], index + i, ref found, ref probe);
            uint place = places & ~(places - 1);
            places ^= place;
            if (i == taken - 1 && !Reference.IsStill)
            {
                return BitOperations.TrailingZeroCount(place);
            }

            stepped |= (steps >> i & 1) != 0 ? place : 0;
        }

        return lights;
    }

    private static bool Has(in ChannelPiece piece, long index, int count) =>
        index >= piece.FirstIndex && index + count <= piece.FirstIndex + piece.Codes.Length;
}
