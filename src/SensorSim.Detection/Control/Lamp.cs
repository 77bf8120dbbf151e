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
    private byte _usualWait;
    private byte _quietSeconds;
    private byte _number;
    private byte _unanswered;
    private bool _isGainAsked;
    private bool _isOpen;

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
        _usualWait = (byte)settings.PatienceSeconds;
        _wait = _usualWait;
    }

    /// <summary>A setting is asked for.</summary>
    /// <param name="isGain">Whether it is the gain, else the current.</param>
    /// <param name="milli">The value.</param>
    public void Ask(bool isGain, int milli)
    {
        _unanswered = isGain == _isGainAsked ? _unanswered : (byte)0;
        IsAsked = true;
        Wish = GainWish.None;
        _isOpen = true;
        _isGainAsked = isGain;
        _askedMilli = milli;
        _patience = _wait;
    }

    /// <summary>Judges the second that has ended; it must have samples.</summary>
    /// <param name="settings">Settings.</param>
    /// <param name="ambient">Room light [codes of 16 bits]; 0 when not known.</param>
    /// <param name="microamp">The current that is wanted; <see cref="Wish"/> says what of the gain.</param>
    /// <returns>Whether a current is to be asked for.</returns>
    public bool Judge(in LevelSettings settings, int ambient, out int microamp)
    {
        microamp = Microamp;
        Observe();
        if (Light.IsMixed || IsWaiting())
        {
            return false;
        }

        Wish = GainWanted(settings, ambient);
        if (Wish != GainWish.None)
        {
            return false;
        }

        microamp = CurrentWanted(settings, ambient, out bool isOutside);
        return microamp != Microamp || (isOutside && _isOpen && !_isGainAsked && _patience == 0);
    }

    // What was asked for holds once the number of the settings changes, however late.
    private void Observe()
    {
        if (!Light.IsMixed && Light.Number == _number)
        {
            return;
        }

        _number = Light.Number;
        if (_isOpen)
        {
            // An answer to what was given up already: this sensor is slower than it was thought.
            bool isLate = !IsAsked || _unanswered > 0;
            _usualWait = isLate ? Twice(_usualWait) : _usualWait;
            Believe();
            IsAsked = false;
            _isOpen = false;
            _unanswered = 0;
            _patience = 0;
            _wait = _usualWait;
        }
    }

    // Without an answer the request is made again, each time after twice as long: it was lost, or refused. After the second time it is
    // taken as done: then it holds already, or the sensor is at its end. Out of the band the last one is repeated now and then, should it have been lost.
    private bool IsWaiting()
    {
        _patience -= (byte)(_patience > 0 ? 1 : 0);
        if (!IsAsked || _patience > 0)
        {
            return IsAsked;
        }

        IsAsked = false;
        _unanswered++;
        _wait = Twice(_wait);
        if (_unanswered >= 2)
        {
            Believe();
            _unanswered = 0;
            _patience = _wait;
        }

        return false;
    }

    private static byte Twice(byte wait) => (byte)(wait * 2 > MostWait ? MostWait : wait * 2);

    private void Believe()
    {
        Microamp = _isGainAsked ? Microamp : _askedMilli;
        GainMilli = _isGainAsked ? (ushort)_askedMilli : GainMilli;
    }

    private GainWish GainWanted(in LevelSettings s, int ambient)
    {
        long room = Light.Room;
        long level = Light.MeanOfClosed() * 100L;
        bool isHigh = level > room * s.HighPercent || IsBlinded();
        bool isBright = ambient * 100L > room * s.BrightPercent && (Microamp < s.MostMicroamp || isHigh);
        if (GainMilli > s.LeastGainMilli && (isBright || (isHigh && Microamp <= s.LeastMicroamp)))
        {
            _quietSeconds = 0;
            return GainWish.Down;
        }

        // Up only after a while of it: room light that comes and goes must not take the gain with it.
        bool isOutOfReach = level < room * s.LowPercent && Microamp >= s.MostMicroamp && ambient * 100L <= room * s.QuietPercent;
        bool mayRise = isOutOfReach && GainMilli < s.MostGainMilli;
        _quietSeconds = (byte)(!mayRise ? 0 : _quietSeconds < byte.MaxValue ? _quietSeconds + 1 : _quietSeconds);
        return _quietSeconds > s.QuietSeconds ? GainWish.Up : GainWish.None;
    }

    private readonly int CurrentWanted(in LevelSettings s, int ambient, out bool isOutside)
    {
        // Levels in hundredths of the range, times the range.
        long room = Light.Room;
        long level = Light.MeanOfClosed() * 100L;
        long ofRoom = ambient * 100L;
        long raise = ofRoom - (room * s.SharedPercent);
        raise = raise < 0 ? 0 : raise > room * s.MostRaisePercent ? room * s.MostRaisePercent : raise;
        long wanted = Microamp;
        bool isBlinded = IsBlinded();
        isOutside = isBlinded || level < (room * s.LowPercent) + raise || level > (room * s.HighPercent) + raise;
        if (isBlinded)
        {
            wanted /= 2;
        }
        else if (isOutside)
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
