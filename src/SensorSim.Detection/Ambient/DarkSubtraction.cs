// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

/// <summary>Takes the light of the room, as the dark slot sees it, off a lit slot.</summary>
/// <remarks>
/// <para>The room at the instant of the light is the straight line through the last two dark samples: between them or a little beyond the latest.
/// Its noise comes into the light; while the room moves less than the noise of the dark slot the smoothed dark is taken instead (<see cref="RoomLine"/>).</para>
/// Input: codes of up to 24 bits, both slots with the same weight of a code.
/// Product: see <see cref="RoomLine"/>.
/// Accumulator: 32 bits; see <see cref="RoomLine"/> and <see cref="RoomMean"/>.
/// Worst case: see there.
/// Output: light without room, from zero, 25 bits, rounded to nearest; no delay.
/// </remarks>
public partial struct DarkSubtraction
{
    /// <summary>Lowest rate of either slot [Hz].</summary>
    public const int MinimumRateHz = 1;

    /// <summary>Highest rate of either slot [Hz].</summary>
    public const int MaximumRateHz = 20_000;

    // Dark samples that tell how noisy they are.
    private const int Warm = 32;

    private LitSlot _own;
    private RoomLine _line;
    private RoomMean _mean;
    private RoomCycle _cycle;
    private RoomPulse _pulse;
    private int _darkZero;
    private byte _levelShift;
    private byte _seen;

    /// <summary>Light of the room [codes above zero], mean of about a second.</summary>
    public readonly int AmbientCodes => Shift.Round(_mean.Level, RoomLine.Fraction);

    /// <summary>How much the light of the room moves [codes]: mean distance from its mean, noise of the dark slot included.</summary>
    public readonly int SwingCodes => Shift.Round(_mean.Swing, RoomLine.Fraction);

    /// <summary>Length of a cycle of the room's light [1/16 of a tenth of a second], where it goes up and down evenly and not with the heart; 0 where not.</summary>
    public readonly int Cycle16 => _pulse.IsThere ? 0 : _cycle.Length16;

    /// <summary>Whether the smoothed dark is taken off.</summary>
    public readonly bool IsSmoothing => _line.IsSmoothing;

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
        _levelShift = (byte)Shift.Needed(darkRateHz, 1);
        _cycle.Start(darkRateHz, _levelShift);
        _pulse.Start();
        return true;
    }

    /// <summary>A tenth of a second is over: all samples up to there have been given.</summary>
    /// <param name="light">The latest light of the LED [codes above zero].</param>
    public void Tenth(int light)
    {
        _cycle.Tenth(_mean);
        _pulse.Tenth(light, _line.Latest, _mean.Swing);
    }

    /// <summary>Takes the next sample of the dark slot.</summary>
    /// <param name="code">The code.</param>
    public void Dark(int code)
    {
        int dark = code - _darkZero;
        if (_seen == 0)
        {
            _line.Begin(dark);
            _mean.Begin(dark);
        }

        _line.Next(dark, _seen == Warm);
        _mean.Next(dark, _levelShift);
        _seen += _seen < Warm ? (byte)1 : (byte)0;
        if (_seen == Warm)
        {
            _line.Choose();
        }

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
    public readonly int RoomAt(int place256) => _line.At(place256);
}
