// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

/// <summary>Where one lit slot lies between the dark ones: several colours share one <see cref="DarkSubtraction"/>.</summary>
/// <remarks>
/// Input: codes of up to 24 bits, and the room's light.
/// Product: see <see cref="DarkSubtraction.RoomAt"/>.
/// Accumulator: 32 bits.
/// Worst case: full scale less full scale.
/// Output: light without room, from zero, clipped to 24 bits and sign; no delay.
/// </remarks>
public struct LitSlot
{
    private const int Rail = (1 << 24) - 1;

    private int _zero;
    private int _place256;
    private int _step256;
    private int _now256;

    /// <summary>Prepares for a stream. The arguments are those that <see cref="DarkSubtraction.Start"/> has allowed.</summary>
    /// <param name="lightRateHz">Rate of the lit slot [Hz], a whole number of times that of the dark one.</param>
    /// <param name="darkRateHz">Rate of the dark slot [Hz].</param>
    /// <param name="shift256">Where in the interval of the dark slot the lit one lies after it [1/256], 0 to 255.</param>
    /// <param name="zeroCode">Code of the lit slot that stands for no light.</param>
    public void Start(int lightRateHz, int darkRateHz, int shift256, int zeroCode)
    {
        this = default;
        _zero = zeroCode;
        _place256 = shift256 < 128 ? shift256 : shift256 - 256;
        _step256 = 256 * darkRateHz / lightRateHz;
    }

    /// <summary>Where it lies after the dark sample beside it [1/256 of the interval], −128 to 127.</summary>
    public readonly int Place256 => _place256;

    /// <summary>A dark sample was taken.</summary>
    public void Dark() => _now256 = _place256;

    /// <summary>Samples have passed, each with a dark one before it.</summary>
    /// <param name="isTaken">Whether those of this slot were taken too.</param>
    public void Pass(bool isTaken)
    {
        int next256 = isTaken ? _place256 + _step256 : _place256;
        _now256 = next256 < 256 ? next256 : 256;
    }

    /// <summary>Light of the LED [codes above zero].</summary>
    /// <param name="lightCode">The code.</param>
    /// <param name="room">The room's light at its instant.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly int Without(int lightCode, int room) => Sat.Narrow(lightCode - _zero - room, Rail);

    /// <summary>Takes the next sample of the lit slot. All dark samples up to its tick have been given.</summary>
    /// <param name="lightCode">The code.</param>
    /// <param name="room">The room's light.</param>
    /// <param name="probe">Sees the result.</param>
    /// <returns>Light of the LED [codes above zero].</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next<TProbe>(int lightCode, in DarkSubtraction room, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        // Both at opposite ends of their ranges make twice the full scale, which no light is.
        int light = Without(lightCode, room.RoomAt(_now256));

        // Never more than one interval beyond the latest: where dark samples are lost the line ends.
        int next256 = _now256 + _step256;
        _now256 = next256 < 256 ? next256 : 256;
        probe.See(ProbePoint.LightWithoutDark, light);
        return light;
    }
}
