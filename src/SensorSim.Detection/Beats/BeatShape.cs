// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Reads the shape of a complex from the held ECG, and looks for a known shape near a place.</summary>
/// <remarks>
/// Input: codes, or sums of up to four, 26 bits.
/// Product: slopes of 12 bits and sign with those of a template.
/// Accumulator: 32 bits; smoothed values times 4: 28 bits, their differences 29 bits before they are scaled.
/// Worst case: 2^29.
/// Output: sixteen slopes, 12 bits and sign, and their shift.
/// </remarks>
public struct BeatShape
{
    private const int Mask = Word256.Length - 1;
    private const int Before = 7;
    private Word32 _area;
    private int _scale;

    /// <summary>Place that fits best, relative to the middle [working samples].</summary>
    public int At { get; private set; }

    /// <summary>Slopes round a place.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="ecg">Held ECG.</param>
    /// <param name="at">The place, modulo 256.</param>
    /// <param name="slopes">The slopes.</param>
    /// <returns>Their shift.</returns>
    public static int Read(in BeatWindows w, in Word256 ecg, int at, out Slopes16 slopes)
    {
        slopes = default;
        Word16 raw = default;
        int largest = 0;

        // A slope lies between two smoothed values; each of those is the end of one and the begin of another.
        int place = at - ((Before + 1) * w.ShapeStep);
        int behind = Smooth(w, ecg, place);
        int here = Smooth(w, ecg, place + w.ShapeStep);
        place += 2 * w.ShapeStep;
        for (int i = 0; i < Slopes16.Length; i++)
        {
            int ahead = Smooth(w, ecg, place);
            int slope = ahead - behind;
            behind = here;
            here = ahead;
            place += w.ShapeStep;
            raw[i] = slope;
            int size = Sat.Abs32(slope);
            largest = size > largest ? size : largest;
        }

        int scale = Shift.Needed(largest, 12);
        for (int i = 0; i < Slopes16.Length; i++)
        {
            slopes[i] = (short)Shift.Floor(raw[i], scale);
        }

        return scale;
    }

    /// <summary>Reads the surroundings of a middle for <see cref="Find"/>.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="ecg">Held ECG.</param>
    /// <param name="middle">The middle, modulo 256.</param>
    public void Survey(in BeatWindows w, in Word256 ecg, int middle)
    {
        int count = Slopes16.Length + (2 * w.ShapeReach);
        int largest = 0;
        int place = middle - ((w.ShapeReach + Before + 1) * w.ShapeStep);
        int behind = Smooth(w, ecg, place);
        int here = Smooth(w, ecg, place + w.ShapeStep);
        place += 2 * w.ShapeStep;
        for (int i = 0; i < count; i++)
        {
            int ahead = Smooth(w, ecg, place);
            int slope = ahead - behind;
            behind = here;
            here = ahead;
            place += w.ShapeStep;
            _area[i] = slope;
            int size = Sat.Abs32(slope);
            largest = size > largest ? size : largest;
        }

        _scale = Shift.Needed(largest, 12);
        for (int i = 0; i < count; i++)
        {
            _area[i] = Shift.Floor(_area[i], _scale);
        }
    }

    /// <summary>The place in the surroundings where the template fits best.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="template">The template.</param>
    /// <returns>How well it fits there [1/256].</returns>
    public int Find(in BeatWindows w, in BeatTemplate template)
    {
        int best = 0;
        int bestDot = 0;
        int bestEnergy = 1;
        int energy = 0;
        for (int i = 0; i < Slopes16.Length; i++)
        {
            energy += _area[i] * _area[i];
        }

        for (int j = 0; j <= 2 * w.ShapeReach; j++)
        {
            int dot = template.Dot(_area, j);
            if (dot > 0 && IsBetter(dot, energy, bestDot, bestEnergy))
            {
                best = j;
                bestDot = dot;
                bestEnergy = energy;
            }

            // The next place: one slope leaves, one comes.
            int leaves = _area[j];
            int comes = _area[(j + Slopes16.Length) & (Word32.Length - 1)];
            energy += (comes * comes) - (leaves * leaves);
        }

        At = (best - w.ShapeReach) * w.ShapeStep;
        return template.Fit(bestDot, IntegerRoot.Floor((uint)bestEnergy));
    }

    /// <summary>Whether dot² / energy is larger; squares of 16 bits against energies of 17.</summary>
    private static bool IsBetter(int dot, int energy, int otherDot, int otherEnergy)
    {
        long a = Shift.Floor(dot, 12);
        long b = Shift.Floor(otherDot, 12);
        return a * a * (Shift.Floor(otherEnergy, 11) + 1) > b * b * (Shift.Floor(energy, 11) + 1);
    }

    private static int Smooth(in BeatWindows w, in Word256 ecg, int at)
    {
        int arm = (w.ShapeStep + 1) >> 1;
        return ecg[(at - arm) & Mask] + (2 * ecg[at & Mask]) + ecg[(at + arm) & Mask];
    }
}
