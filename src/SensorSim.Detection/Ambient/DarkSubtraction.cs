// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

/// <summary>Takes the light of the room, as the dark slot sees it, off a lit slot.</summary>
/// <remarks>
/// <para>The room at the instant of the light is the straight line through the last two dark samples: between them or a little beyond the latest.
/// Its noise comes into the light; while the room moves less than the noise of the dark slot the smoothed dark is taken instead.</para>
/// Input: codes of up to 24 bits, both slots with the same weight of a code.
/// Product: difference of two dark codes × place in 1/256 of the interval, 25 + 9 bits, difference clipped to 22 bits.
/// Accumulator: 32 bits; smoothed values Q25.6, means of magnitudes Q25.6 clipped at 2^30.
/// Worst case: step of 2^24 codes; a difference beyond 2^22 counts as a step and is not extrapolated.
/// Output: light without room, from zero, 25 bits, rounded to nearest; no delay.
/// </remarks>
public partial struct DarkSubtraction
{
    /// <summary>Lowest rate of either slot [Hz].</summary>
    public const int MinimumRateHz = 1;

    /// <summary>Highest rate of either slot [Hz].</summary>
    public const int MaximumRateHz = 20_000;

    private const int Fraction = 6;
    private const int SmoothShift = 3;
    private const int MeanRail = 1 << 30;
    private const int SlopeRail = (1 << 22) - 1;

    private LitSlot _own;
    private int _darkZero;
    private int _levelShift;
    private int _latest;
    private int _slope;
    private int _smooth;
    private int _level;
    private int _rawError;
    private int _smoothError;
    private int _swing;
    private int _seen;
    private bool _isSmoothing;

    /// <summary>Light of the room [codes above zero], mean of about a second.</summary>
    public readonly int AmbientCodes => Shift.Round(_level, Fraction);

    /// <summary>How much the light of the room moves [codes]: mean distance from its mean, noise of the dark slot included.</summary>
    public readonly int SwingCodes => Shift.Round(_swing, Fraction);

    /// <summary>Whether the smoothed dark is taken off.</summary>
    public readonly bool IsSmoothing => _isSmoothing;

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="lightRateHz">Rate of the lit slot [Hz], 1 to 20,000.</param>
    /// <param name="darkRateHz">Rate of the dark slot [Hz]; the light's or a whole part of it.</param>
    /// <param name="shift256">
    /// Where in the interval of the dark slot the lit one lies after it [1/256], 0 to 255. From 128 on the dark sample of the same instant lies
    /// after the lit one, by 256 less this.
    /// </param>
    /// <param name="lightZeroCode">Code of the lit slot that stands for no light.</param>
    /// <param name="darkZeroCode">Code of the dark slot that stands for no light.</param>
    /// <returns>Whether the arguments are allowed.</returns>
    public bool Start(int lightRateHz, int darkRateHz, int shift256, int lightZeroCode, int darkZeroCode)
    {
        if (darkRateHz < MinimumRateHz || lightRateHz > MaximumRateHz || lightRateHz < darkRateHz
            || lightRateHz % darkRateHz != 0 || shift256 < 0 || shift256 > 255)
        {
            return false;
        }

        this = default;
        _own.Start(lightRateHz, darkRateHz, shift256, lightZeroCode);
        _darkZero = darkZeroCode;
        _levelShift = Shift.Needed(darkRateHz, 1);
        return true;
    }

    /// <summary>Takes the next sample of the dark slot.</summary>
    /// <param name="code">The code.</param>
    public void Dark(int code)
    {
        int dark = code - _darkZero;
        int dark64 = dark << Fraction;
        if (_seen == 0)
        {
            _latest = dark;
            _smooth = dark64;
            _level = dark64;
        }

        _slope = Sat.Narrow(dark - _latest, SlopeRail);
        int raw64 = Sat.Narrow(Sat.Abs32(dark64 - (_latest << Fraction)), MeanRail);
        int off64 = Sat.Narrow(Sat.Abs32(dark64 - _smooth), MeanRail);

        // Sun, shade or a lamp: at once, and without going on as it went. The measures see it only as far as noise might go.
        int most = _seen < Warm ? MeanRail : (_rawError << 3) + (16 << Fraction);
        most = most < 0 || most > MeanRail ? MeanRail : most;
        if (off64 > most)
        {
            _smooth = dark64;
        }

        if (raw64 > most)
        {
            _slope = 0;
        }

        raw64 = raw64 < most ? raw64 : most;
        off64 = off64 < most ? off64 : most;
        _latest = dark;
        _rawError += Shift.Round(raw64 - _rawError, 5);
        _smoothError += Shift.Round(off64 - _smoothError, 5);
        _smooth += Shift.Round(dark64 - _smooth, SmoothShift);
        _swing += Shift.Round(Sat.Narrow(Sat.Abs32(dark64 - _level), MeanRail) - _swing, _levelShift);
        _level += Shift.Round(dark64 - _level, _levelShift);
        _seen += _seen < Warm ? 1 : 0;
        Choose();
        _own.Dark();
    }

    /// <summary>Takes the next sample of the lit slot. All dark samples up to its tick have been given.</summary>
    /// <param name="lightCode">The code.</param>
    /// <param name="probe">Sees the result.</param>
    /// <returns>Light of the LED [codes above zero].</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next<TProbe>(int lightCode, ref TProbe probe)
        where TProbe : struct, IProbe => _own.Next(lightCode, this, ref probe);

    /// <summary>Light of the room at a place [codes above zero].</summary>
    /// <param name="place256">How long after the latest dark sample [1/256 of the interval], −128 to 256.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly int RoomAt(int place256) =>
        _isSmoothing ? Shift.Round(_smooth, Fraction) : _latest + Shift.Round(_slope * place256, 8);

    private const int Warm = 32;

    // White noise of 1: neighbours differ by 1.41, a sample and the smoothed ones before it by 1.03. In between lies where both serve alike; an
    // eighth of margin to each side keeps the choice from going to and fro.
    private void Choose()
    {
        if (_seen < Warm)
        {
            return;
        }

        int raw = _rawError;
        _isSmoothing = _isSmoothing
            ? _smoothError < raw + (raw >> 3)
            : _smoothError < raw - (raw >> 3);
    }
}
