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

        if (Avx2.IsSupported)
        {
            TakeLanes(codes[done..], polarity, lights[done..], ref other, others.Length == 0 ? others : others[done..], ref probe);
            return;
        }

        TakeMean(codes[done..], polarity);
        TakeLine(codes[done..], polarity, lights[done..], ref other, others.Length == 0 ? others : others[done..], ref probe);
    }

    // The straight line, the smoothed dark, and which of them is taken off.
    private void TakeLine<TProbe>(
        ReadOnlySpan<int> codes, int polarity, scoped Span<int> lights, ref LitSlot other, scoped Span<int> others, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        int zero = _darkZero;
        int latest = _latest;
        int slope = _slope;
        int smooth = _smooth;
        int rawError = _rawError;
        int smoothError = _smoothError;
        bool isSmoothing = _isSmoothing;
        bool hasOther = others.Length > 0;
        LitSlot ownSlot = _own;
        LitSlot otherSlot = other;
        for (int i = 0; i < codes.Length && i < lights.Length; i++)
        {
            int dark = (codes[i] * polarity) - zero;
            int dark64 = dark << Fraction;
            slope = Sat.Narrow(dark - latest, SlopeRail);
            int raw64 = Sat.Abs32(dark64 - (latest << Fraction));
            int off64 = Sat.Abs32(dark64 - smooth);
            int most = (rawError << 3) + (16 << Fraction);
            most = most < 0 || most > MeanRail ? MeanRail : most;
            if (off64 > most)
            {
                // As far as it counts at all it is not beyond the rail.
                smooth = most < MeanRail ? dark64 : smooth;
                off64 = most;
            }

            if (raw64 > most)
            {
                slope = most < MeanRail ? 0 : slope;
                raw64 = most;
            }

            latest = dark;

            // Means and what they are taken of lie between 0 and the rail: there is room for the half.
            rawError += Shift.RoundWithRoom(raw64 - rawError, 5);
            smoothError += Shift.RoundWithRoom(off64 - smoothError, 5);
            smooth += Shift.Round(dark64 - smooth, SmoothShift);
            int margin = Shift.Floor(rawError, 3);
            isSmoothing = smoothError < (isSmoothing ? rawError + margin : rawError - margin);

            int level = Shift.Round(smooth, Fraction);
            lights[i] = ownSlot.Without(lights[i], isSmoothing ? level : latest + Shift.Round(slope * ownSlot.Place256, 8));
            probe.See(ProbePoint.LightWithoutDark, lights[i]);
            if (hasOther)
            {
                others[i] = otherSlot.Without(others[i], isSmoothing ? level : latest + Shift.Round(slope * otherSlot.Place256, 8));
                probe.See(ProbePoint.LightWithoutDark, others[i]);
            }
        }

        _latest = latest;
        _slope = slope;
        _smooth = smooth;
        _rawError = rawError;
        _smoothError = smoothError;
        _isSmoothing = isSmoothing;
        _own.Pass(true);
        other.Pass(hasOther);
    }

    // Level of the room and how much it moves.
    private void TakeMean(ReadOnlySpan<int> codes, int polarity)
    {
        int zero = _darkZero;
        int level = _level;
        int swing = _swing;
        int less = _levelShift - 1;
        for (int i = 0; i < codes.Length; i++)
        {
            int off = (((codes[i] * polarity) - zero) << Fraction) - level;
            int size = Sat.Abs32(off);
            size = size < MeanRail ? size : MeanRail;

            // The last bit of the shift by itself after one is added rounds as Shift.Round does, without room for a half.
            swing += Shift.Floor(Shift.Floor(size - swing, less) + 1, 1);
            level += Shift.Floor(Shift.Floor(off, less) + 1, 1);
        }

        _level = level;
        _swing = swing;
    }
}
