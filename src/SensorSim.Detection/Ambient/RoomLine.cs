// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

/// <summary>The light of the room near the latest dark sample: a straight line through the last two, or the smoothed dark while that is nearer.</summary>
/// <remarks>
/// Input: codes of up to 24 bits and sign.
/// Product: slope × place 23 + 9 bits.
/// Accumulator: 32 bits; the smoothed dark Q25.6, means of magnitudes Q25.6 clipped at 2^30.
/// Worst case: step of 2^24 codes; a difference beyond 2^22 counts as a step and is not extrapolated.
/// Output: codes above zero, rounded to nearest.
/// </remarks>
public struct RoomLine
{
    /// <summary>Bits behind the point of what is smoothed or a mean.</summary>
    public const int Fraction = 6;

    /// <summary>Largest magnitude that goes into a mean.</summary>
    public const int MeanRail = 1 << 30;

    /// <summary>Largest slope that is gone on with.</summary>
    public const int SlopeRail = (1 << 22) - 1;

    /// <summary>The smoothed dark has an eighth of the new one.</summary>
    public const int SmoothShift = 3;

    /// <summary>Of what the line and the smoothed dark are off by, means over 32 samples.</summary>
    public const int ErrorShift = 5;

    /// <summary>The latest dark sample.</summary>
    public int Latest;

    /// <summary>How it differs from the one before, where the line goes on.</summary>
    public int Slope;

    /// <summary>The smoothed dark.</summary>
    public int Smooth;

    /// <summary>How far the latest is from the one before, mean.</summary>
    public int RawError;

    /// <summary>How far it is from the smoothed ones before, mean.</summary>
    public int SmoothError;

    /// <summary>Whether the smoothed dark is taken.</summary>
    public bool IsSmoothing;

    /// <summary>Begins with a dark sample.</summary>
    /// <param name="dark">The sample [codes above zero].</param>
    public void Begin(int dark)
    {
        Latest = dark;
        Smooth = dark << Fraction;
    }

    /// <summary>Takes the next dark sample.</summary>
    /// <param name="dark">The sample [codes above zero].</param>
    /// <param name="isWarm">Whether there have been enough to tell a step from noise.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Next(int dark, bool isWarm)
    {
        int dark64 = dark << Fraction;
        Slope = Sat.Narrow(dark - Latest, SlopeRail);
        int raw64 = Sat.Abs32(dark64 - (Latest << Fraction));
        int off64 = Sat.Abs32(dark64 - Smooth);

        // Sun, shade or a lamp: at once, and without going on as it went. The means see it only as far as noise might go. As far as anything counts
        // at all it is not beyond the rail.
        int most = isWarm ? (RawError << 3) + (16 << Fraction) : MeanRail;
        most = most < 0 || most > MeanRail ? MeanRail : most;
        if (off64 > most)
        {
            Smooth = most < MeanRail ? dark64 : Smooth;
            off64 = most;
        }

        if (raw64 > most)
        {
            Slope = most < MeanRail ? 0 : Slope;
            raw64 = most;
        }

        Latest = dark;

        // Means and what they are taken of lie between 0 and the rail: there is room for the half.
        RawError += Shift.RoundWithRoom(raw64 - RawError, ErrorShift);
        SmoothError += Shift.RoundWithRoom(off64 - SmoothError, ErrorShift);
        Smooth += Shift.Round(dark64 - Smooth, SmoothShift);
    }

    /// <summary>Chooses between the two.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Choose() => IsSmoothing = IsSmoother(IsSmoothing, RawError, SmoothError);

    /// <summary>Whether the smoothed dark is nearer.</summary>
    /// <param name="isSmoothing">Whether it has been taken up to now.</param>
    /// <param name="rawError">How far the latest is from the one before, mean.</param>
    /// <param name="smoothError">How far it is from the smoothed ones before, mean.</param>
    /// <remarks>
    /// White noise of 1: neighbours differ by 1.41, a sample and the smoothed ones before it by 1.03. In between lies where both serve alike; an
    /// eighth of margin to each side keeps the choice from going to and fro.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool IsSmoother(bool isSmoothing, int rawError, int smoothError)
    {
        int margin = Shift.Floor(rawError, 3);
        return smoothError < (isSmoothing ? rawError + margin : rawError - margin);
    }

    /// <summary>Light of the room at a place [codes above zero].</summary>
    /// <param name="place256">How long after the latest dark sample [1/256 of the interval], −128 to 256.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly int At(int place256) => IsSmoothing ? Shift.Round(Smooth, Fraction) : Latest + Shift.Round(Slope * place256, 8);
}
