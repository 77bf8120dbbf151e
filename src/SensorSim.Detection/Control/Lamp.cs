// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Control;

/// <summary>What one LED and its receiver are set to, and what has been asked for.</summary>
/// <remarks>
/// Input: mean levels of 16 bits, once a second.
/// Product: current × share of the range, 20 + 23 bits.
/// Accumulator: 64 bits, once a second.
/// Worst case: 10^6 µA × 65,535 × 75, 43 bits.
/// Output: µA, floor; two divisions a second.
/// </remarks>
internal struct Lamp
{
    private const int MostWait = 80;

    /// <summary>Mean level, second by second.</summary>
    public SecondMean Light;

    private int _askedMilli;
    private byte _patience;
    private byte _wait;
    private byte _askedAt;
    private bool _isGainAsked;

    /// <summary>LED current that is believed to hold [µA].</summary>
    public int Microamp { get; private set; }

    /// <summary>Gain that is believed to hold [1/1000].</summary>
    public ushort GainMilli { get; private set; }

    /// <summary>What the last second wants of the gain.</summary>
    public GainWish Wish { get; private set; }

    /// <summary>Whether a request is under way.</summary>
    public bool IsAsked { get; private set; }

    /// <summary>Whether the start was asked for.</summary>
    public readonly bool IsStarted => GainMilli != 0;

    /// <summary>The start is asked for.</summary>
    /// <param name="settings">Settings.</param>
    public void Begin(in LevelSettings settings)
    {
        Microamp = settings.StartMicroamp;
        GainMilli = 1_000;
        _wait = (byte)settings.PatienceSeconds;
    }

    /// <summary>A setting is asked for.</summary>
    /// <param name="isGain">Whether it is the gain, else the current.</param>
    /// <param name="milli">The value.</param>
    public void Ask(bool isGain, int milli)
    {
        IsAsked = true;
        Wish = GainWish.None;
        _isGainAsked = isGain;
        _askedMilli = milli;
        _askedAt = Light.Number;
        _patience = _wait;
    }

    /// <summary>Judges the second that has ended; it must have samples.</summary>
    /// <param name="settings">Settings.</param>
    /// <param name="ambient">Room light [codes of 16 bits]; 0 when not known.</param>
    /// <param name="microamp">The current that is wanted; <see cref="Wish"/> says what of the gain.</param>
    /// <returns>Whether another current is wanted.</returns>
    public bool Judge(in LevelSettings settings, int ambient, out int microamp)
    {
        microamp = Microamp;
        if (IsWaiting(settings))
        {
            return false;
        }

        Wish = GainWanted(settings, ambient);
        if (Wish == GainWish.None)
        {
            microamp = CurrentWanted(settings, ambient);
        }

        if (Wish == GainWish.None && microamp == Microamp)
        {
            _wait = (byte)settings.PatienceSeconds;
        }

        return microamp != Microamp;
    }

    // A request stands until the number of the settings changes; the second of the change decides nothing. When none comes, the
    // request was refused or changed nothing: what held before still holds, and asking again takes twice as long each time.
    private bool IsWaiting(in LevelSettings settings)
    {
        if (IsAsked && (Light.IsMixed || Light.Number != _askedAt))
        {
            IsAsked = false;
            _wait = (byte)settings.PatienceSeconds;
            Microamp = _isGainAsked ? Microamp : _askedMilli;
            GainMilli = _isGainAsked ? (ushort)_askedMilli : GainMilli;
        }

        if (!IsAsked)
        {
            return Light.IsMixed;
        }

        if (_patience > 0)
        {
            _patience--;
            return true;
        }

        IsAsked = false;
        _wait = (byte)(_wait * 2 > MostWait ? MostWait : _wait * 2);
        return false;
    }

    private readonly GainWish GainWanted(in LevelSettings s, int ambient)
    {
        long room = Light.Room;
        long level = Light.MeanOfClosed() * 100L;
        bool isHigh = level > room * s.HighPercent || IsBlinded();
        bool isBright = ambient * 100L > room * s.BrightPercent && (Microamp < s.MostMicroamp || isHigh);
        if (GainMilli > s.LeastGainMilli && (isBright || (isHigh && Microamp <= s.LeastMicroamp)))
        {
            return GainWish.Down;
        }

        bool isOutOfReach = level < room * s.LowPercent && Microamp >= s.MostMicroamp;
        return GainMilli < s.MostGainMilli && isOutOfReach && ambient * 100L <= room * s.QuietPercent ? GainWish.Up : GainWish.None;
    }

    private readonly int CurrentWanted(in LevelSettings s, int ambient)
    {
        // Levels in hundredths of the range, times the range.
        long room = Light.Room;
        long level = Light.MeanOfClosed() * 100L;
        long ofRoom = ambient * 100L;
        long raise = ofRoom - (room * s.SharedPercent);
        raise = raise < 0 ? 0 : raise > room * s.MostRaisePercent ? room * s.MostRaisePercent : raise;
        long wanted = Microamp;
        if (IsBlinded())
        {
            wanted /= 2;
        }
        else if (level < (room * s.LowPercent) + raise || level > (room * s.HighPercent) + raise)
        {
            // Only the LED's own light scales with the current. Half or twice at most.
            long own = level - ofRoom;
            long right = own <= 0 ? s.MostMicroamp : Microamp * ((room * s.TargetPercent) + raise - ofRoom) / own;
            right = right < Microamp / 2 ? Microamp / 2 : right;
            wanted = right > Microamp * 2L ? Microamp * 2L : right;
        }

        wanted = wanted > s.MostMicroamp ? s.MostMicroamp : wanted;
        return wanted < s.LeastMicroamp ? s.LeastMicroamp : (int)wanted;
    }

    private readonly bool IsBlinded() => Light.IsClipped && Light.MeanOfClosed() * 2 > Light.Room;
}
