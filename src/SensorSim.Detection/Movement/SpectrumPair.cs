// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>Power spectra of two real signals by one complex transform.</summary>
/// <remarks>
/// Input: two rings of 15 bits, with an exponent each.
/// Product: sample × Hann window Q1.15, rounded to 19 bits; squares of 26 bits, twice: 53 bits.
/// Accumulator: 64 bits for powers.
/// Worst case: a full-scale line: 2^18 × 52 × ½.
/// Output: 24 bits, the largest power of each signal at least 2^23; <see cref="RelativeShift"/> says what the second has to be shifted by.
/// </remarks>
public ref partial struct SpectrumPair
{
    /// <summary>Bins that are made, 1 to 127.</summary>
    public const int Bins = 128;

    private const int PowerBits = 24;

    /// <summary>Power of the first signal.</summary>
    public Word256 First;

    /// <summary>Power of the second signal.</summary>
    public Word256 Second;

    /// <summary>The second's power × 2^this has the weight of the first's.</summary>
    public int RelativeShift;

    /// <summary>Makes both spectra.</summary>
    /// <param name="first">First signal.</param>
    /// <param name="second">Second signal.</param>
    /// <param name="length">Samples, up to 104; the rest is 0.</param>
    /// <param name="hannStep16">Half a circle over that length [1/65536 circle].</param>
    public void Make(in HalfRing first, in HalfRing second, int length, int hannStep16)
    {
        First = default;
        Second = default;
        if (Avx2.IsSupported)
        {
            MakeInLanes(first, second, length, hannStep16);
            return;
        }

        Window(first, second, length, hannStep16);
        Fft256.Transform(ref First, ref Second);
        Powers(out int firstShift, out int secondShift);
        RelativeShift = secondShift + (2 * second.Exponent) - firstShift - (2 * first.Exponent);
    }

    /// <summary>Gives the second signal the first's weight, and each bin from 1 to 126 the largest power of itself and its neighbours: what nobody measured
    /// need not be at the very same frequency.</summary>
    /// <remarks>In place, for a third array would be a kilobyte of stack.</remarks>
    public void Spread()
    {
        int before = 0;
        for (int k = 1; k < Bins - 1; k++)
        {
            int here = Second[k];
            int highest = before > here ? before : here;
            highest = Second[k + 1] > highest ? Second[k + 1] : highest;
            Second[k] = Wide.Narrow(Wide.Shifted(highest, RelativeShift), int.MaxValue);
            before = here;
        }
    }

    private void Window(in HalfRing first, in HalfRing second, int length, int hannStep16)
    {
        for (int i = 0; i < length; i++)
        {
            // Hann window: the square of half a sine.
            int sine = SineTable.Fine((hannStep16 * i) + (hannStep16 >> 1));
            int hann = Shift.Round(sine * sine, 15);
            int at = Fft256.Reversed(i);
            First[at] = Shift.Round(first[i] * hann, 11);
            Second[at] = Shift.Round(second[i] * hann, 11);
        }
    }

    private void Powers(out int firstShift, out int secondShift)
    {
        long highestFirst = 0;
        long highestSecond = 0;
        for (int k = 1; k < Bins; k++)
        {
            long power = FirstPower(k);
            highestFirst = power > highestFirst ? power : highestFirst;
            power = SecondPower(k);
            highestSecond = power > highestSecond ? power : highestSecond;
        }

        firstShift = Spare(highestFirst);
        secondShift = Spare(highestSecond);
        for (int k = 1; k < Bins; k++)
        {
            // In place: bin 256 − k, which each needs as well, stays as it is.
            int power = (int)Wide.Shifted(FirstPower(k), -firstShift);
            Second[k] = (int)Wide.Shifted(SecondPower(k), -secondShift);
            First[k] = power;
        }
    }

    private static int Spare(long highest) => Wide.Bits(highest) - PowerBits;

    // Z = A + jB of two real signals: 2 A(k) = Z(k) + conj Z(−k), 2j B(k) = Z(k) − conj Z(−k).
    private readonly long FirstPower(int k)
    {
        long real = (long)First[k] + First[Fft256.Length - k];
        long imaginary = (long)Second[k] - Second[Fft256.Length - k];
        return (real * real) + (imaginary * imaginary);
    }

    private readonly long SecondPower(int k)
    {
        long real = (long)Second[k] + Second[Fft256.Length - k];
        long imaginary = (long)First[Fft256.Length - k] - First[k];
        return (real * real) + (imaginary * imaginary);
    }
}
