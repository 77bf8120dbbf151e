// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

// Where each lit sample has a dark one of its own they go through as a run, with what changes at each of them beside the loops instead of in the state:
// so no sample waits until what the one before left has been stored.
public partial struct DarkSubtraction
{
    /// <summary>Takes as many samples of the dark slot as of the lit ones, each before those of the same place.</summary>
    /// <param name="codes">Codes of the dark slot.</param>
    /// <param name="polarity">What they are multiplied by, 1 or −1.</param>
    /// <param name="lights">Codes of the lit slot; gets the light of the LED [codes above zero].</param>
    /// <param name="other">Another lit slot.</param>
    /// <param name="others">The same of that slot, or none.</param>
    /// <param name="probe">Sees the results.</param>
    public void Take<TProbe>(
        ReadOnlySpan<int> codes, int polarity, scoped Span<int> lights, ref LitSlot other, scoped Span<int> others, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        int done = 0;
        while (done < codes.Length && (_seen < Warm || _levelShift < 2))
        {
            Dark(codes[done] * polarity);
            other.Dark();
            lights[done] = _own.Next(lights[done], this, ref probe);
            if (done < others.Length)
            {
                others[done] = other.Next(others[done], this, ref probe);
            }

            done++;
        }

        if (done == codes.Length)
        {
            return;
        }

        _own.Pass(true);
        other.Pass(others.Length > 0);
        if (Avx2.IsSupported)
        {
            TakeLanes(codes[done..], polarity, lights[done..], ref other, others.Length == 0 ? others : others[done..], ref probe);
            return;
        }

        TakeMean(codes[done..], polarity);
        TakeLine(codes[done..], polarity, lights[done..], ref other, others.Length == 0 ? others : others[done..], ref probe);
    }

    // What is taken off.
    private void TakeLine<TProbe>(
        ReadOnlySpan<int> codes, int polarity, scoped Span<int> lights, ref LitSlot other, scoped Span<int> others, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        int zero = _darkZero;
        RoomLine line = _line;
        LitSlot ownSlot = _own;
        LitSlot otherSlot = other;
        for (int i = 0; i < codes.Length && i < lights.Length; i++)
        {
            line.Next((codes[i] * polarity) - zero, true);
            line.Choose();
            lights[i] = ownSlot.Without(lights[i], line.At(ownSlot.Place256));
            probe.See(ProbePoint.LightWithoutDark, lights[i]);
            if (i < others.Length)
            {
                others[i] = otherSlot.Without(others[i], line.At(otherSlot.Place256));
                probe.See(ProbePoint.LightWithoutDark, others[i]);
            }
        }

        _line = line;
    }

    // Level of the room and how much it moves.
    private void TakeMean(ReadOnlySpan<int> codes, int polarity)
    {
        int zero = _darkZero;
        int shift = _levelShift;
        RoomMean mean = _mean;
        for (int i = 0; i < codes.Length; i++)
        {
            mean.Next((codes[i] * polarity) - zero, shift);
        }

        _mean = mean;
    }
}
