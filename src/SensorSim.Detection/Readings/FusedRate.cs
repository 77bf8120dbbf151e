// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>One heart rate from up to three: of the ECG, of the pulse, and of the pulse's spectrum under movement.</summary>
/// <remarks>
/// <para>
/// Trust falls with age, to half at 4 s and to nothing at 8 s. Two that agree within 4 bpm or a sixteenth confirm each other: the better one is
/// given, with half of the other's trust on top. The value given is always one of the inputs with its window, never a mean, so that it stays
/// a rate over named beats. When none agree, the best is given with half its trust, if it leads by a quarter of the scale, and else none; but an
/// ECG trusted by 144 and more is believed against lower rates of the light, with half its trust, for not every beat makes a pulse.
/// </para>
/// Input: readings in 1/1000 bpm.
/// Product: age × 2, 32 bits.
/// Accumulator: 32 bits.
/// Worst case: rates above 2^31 / 1000 do not come.
/// Output: one of the inputs as it is, its quality changed; up to three long divisions, a few times a second at most.
/// </remarks>
public struct FusedRate
{
    private const int StepsPerSecond = 2;
    private const int NearMilli = 4000;
    private const int Lead = 64;
    private const int TrustedEcg = 144;

    private BeatClock _clock;
    private Reading _latest;

    /// <summary>The latest value; quality 0 until there was one.</summary>
    public readonly Reading Latest => _latest;

    /// <summary>Forgets.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock)
    {
        this = default;
        _clock.Start(clock);
        _latest = new Reading(ReadingKind.HeartRateFused, 0, 0, 0, 0);
    }

    /// <summary>Looks at the latest rates. Call it when one of them is new; quality 0 stands for none.</summary>
    /// <param name="ecg">Rate of the ECG.</param>
    /// <param name="pulse">Rate of the pulse, beat by beat.</param>
    /// <param name="spectrum">Rate of the pulse's spectrum.</param>
    /// <param name="nowTicks256">The present [1/256 tick].</param>
    /// <returns>Whether there is a new value.</returns>
    public bool Update(in Reading ecg, in Reading pulse, in Reading spectrum, long nowTicks256)
    {
        int first = Trust(ecg, nowTicks256);
        int second = Trust(pulse, nowTicks256);
        int third = Trust(spectrum, nowTicks256);
        int firstWith = first + Support(ecg, first, pulse, second, spectrum, third);
        int secondWith = second + Support(pulse, second, ecg, first, spectrum, third);
        int thirdWith = third + Support(spectrum, third, ecg, first, pulse, second);

        // Light counts pulses, and beats may have none: bigeminy halves its rate. A trusted ECG is not outvoted by fewer pulses.
        bool isDeficit = first >= TrustedEcg && firstWith == first
            && (second == 0 || pulse.ValueMilli < ecg.ValueMilli) && (third == 0 || spectrum.ValueMilli < ecg.ValueMilli);
        if (isDeficit)
        {
            return Give(ecg, first, first, 0, second + third > 0);
        }

        // Support first: a pair that agrees outweighs a third, however sure of itself.
        if (firstWith >= secondWith && firstWith >= thirdWith)
        {
            return Give(ecg, first, firstWith, second > third ? second : third, false);
        }

        return secondWith >= thirdWith
            ? Give(pulse, second, secondWith, first > third ? first : third, false)
            : Give(spectrum, third, thirdWith, first > second ? first : second, false);
    }

    private static int Support(in Reading one, int trust, in Reading other, int otherTrust, in Reading third, int thirdTrust)
    {
        int best = 0;
        if (trust > 0 && otherTrust > 0 && IsNear(one, other))
        {
            best = otherTrust;
        }

        if (trust > 0 && thirdTrust > best && IsNear(one, third))
        {
            best = thirdTrust;
        }

        return best == 0 ? 0 : Shift.Floor(best + 1, 1);
    }

    private static bool IsNear(in Reading one, in Reading other)
    {
        int difference = Sat.Abs32(one.ValueMilli - other.ValueMilli);
        return difference <= NearMilli || difference <= Shift.Floor(one.ValueMilli, 4);
    }

    private readonly int Trust(in Reading reading, long now256)
    {
        if (reading.Quality == 0)
        {
            return 0;
        }

        // Half seconds, so 16 of them are 8 s.
        int sixteenths = _clock.Steps(_clock.Span(reading.Ticks256, now256), StepsPerSecond);
        return sixteenths >= 16 ? 0 : Shift.Round(reading.Quality * (16 - sixteenths), 4);
    }

    private bool Give(in Reading best, int trust, int withSupport, int other, bool isDoubted)
    {
        if (trust == 0)
        {
            return false;
        }

        bool isConfirmed = withSupport > trust;
        if (!isConfirmed && other > 0)
        {
            if (trust - other < Lead)
            {
                return false;
            }

            isDoubted = true;
        }

        withSupport = isDoubted ? Shift.Floor(trust, 1) : withSupport;

        bool isNew = best.Ticks256 != _latest.Ticks256 || best.ValueMilli != _latest.ValueMilli;
        _latest = best with { Kind = ReadingKind.HeartRateFused, Quality = (byte)(withSupport > 255 ? 255 : withSupport) };
        return isNew;
    }
}
