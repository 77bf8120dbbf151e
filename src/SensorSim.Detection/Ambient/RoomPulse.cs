// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

/// <summary>Whether the dark slot goes up and down with the light of the LED: then it sees the heart, and no lamp.</summary>
/// <remarks>
/// <para>
/// Light of the room that shines through the finger, and light of the slot before, rise and fall with the blood as the LED's light does, by a fixed share
/// of it. What subtraction leaves of a lamp never does: the mean product of x(t + τ) − x(t) and x(t) is r(τ) − r(0), and nothing is more like
/// itself at another instant than at the same (r autocorrelation; textbook). Once in a tenth of a second the change of the dark slot is held
/// against that of the light.
/// </para>
/// Input: codes of up to 24 bits and sign.
/// Product: change × share 26 + 15 bits, in 64 bits.
/// Accumulator: a share of 15 bits, a count of 6.
/// Worst case: both at opposite ends of their ranges.
/// Output: yes or no.
/// </remarks>
public struct RoomPulse
{
    // The share of the light's change has ten bits behind the point, from a 64th to 16. It goes an eighth up or down, a quarter where it is off by more
    // than half.
    private const int Fraction = 10;
    private const int Least = 1 << 4;
    private const int Most = 1 << 14;
    private const int FarShift = 2;
    private const int NearShift = 3;

    // The two are alike when they differ by no more than a quarter of their sum, five to three: through the finger at 40 dB that is so in more than
    // nine of ten, at 14 dB in six; beside a lamp in one or two of ten. So it counts up where it is in more than three of five.
    private const int AlikeShift = 2;
    private const byte Gain = 2;
    private const byte Loss = 3;
    private const byte Full = 48;
    private const byte Sure = 24;
    private const byte Unsure = 12;

    private int _light;
    private int _dark;
    private ushort _share1024;
    private byte _count;

    /// <summary>Whether the dark slot sees the heart.</summary>
    public bool IsThere { get; private set; }

    /// <summary>Forgets.</summary>
    public void Start()
    {
        this = default;
        _share1024 = 1 << Fraction;
    }

    /// <summary>A tenth of a second is over.</summary>
    /// <param name="light">The latest light of the LED [codes above zero].</param>
    /// <param name="dark">The latest dark sample [codes above zero].</param>
    /// <param name="swing">How much the dark slot moves, as <see cref="RoomMean"/> has it.</param>
    public void Tenth(int light, int dark, int swing)
    {
        long ofLight = (long)(light - _light) * _share1024;
        long ofDark = (long)(dark - _dark) << Fraction;
        _light = light;
        _dark = dark;

        // Smaller ones may be noise.
        long sum = Abs(ofLight) + Abs(ofDark);
        if (sum <= (long)swing << (Fraction - RoomLine.Fraction))
        {
            return;
        }

        long apart = Abs(ofLight - ofDark);
        if (apart << AlikeShift <= sum)
        {
            _count = _count + Gain < Full ? (byte)(_count + Gain) : Full;
        }
        else
        {
            _count = _count > Loss ? (byte)(_count - Loss) : (byte)0;
        }

        IsThere = _count >= (IsThere ? Unsure : Sure);

        // Both go the same way; apart by more than a third of the sum, one is more than twice the other.
        if (apart < sum)
        {
            Follow(Abs(ofLight) < Abs(ofDark), 3 * apart > sum);
        }
    }

    private void Follow(bool isMore, bool isFar)
    {
        int step = Shift.Floor(_share1024, isFar ? FarShift : NearShift);
        int share = isMore ? _share1024 + step : _share1024 - step;
        _share1024 = (ushort)(share < Least ? Least : share > Most ? Most : share);
    }

    private static long Abs(long value) => value < 0 ? -value : value;
}
