// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Control;

/// <summary>Keeps the received light of up to three LEDs inside the converter's range by asking for LED currents and for the gain.</summary>
/// <remarks>
/// Each second of each lit channel gives its mean level. Room light is the mean of the dark channel over its latest whole second; without
/// a dark channel it is taken as none. The gain is one for all optical channels, the dark one too, so that they stay comparable. Samples come in
/// order of tick and channel.
/// Input: codes of up to 24 bits with their status words.
/// Product: see <see cref="Lamp"/>.
/// Accumulator: 32 bits a sample, 64 bits a second.
/// Worst case: see <see cref="Lamp"/>.
/// Output: at most one request a sample, and one for each lamp and second.
/// </remarks>
public struct LevelController
{
    private const int Lamps = 3;
    private Lamps3 _lamps;
    private SecondMean _dark;
    private int _lastDark;
    private ControlRequest _request;

    /// <summary>The request of the sample for which <see cref="Next"/> gave true.</summary>
    public readonly ControlRequest Request => _request;

    /// <summary>Forgets all channels.</summary>
    public void Start() => this = default;

    /// <summary>Adds a channel, before the first sample.</summary>
    /// <param name="role">Red, infrared, green or dark.</param>
    /// <param name="rateHz">Sampling rate [Hz], 1 to 2000.</param>
    /// <param name="zeroCode">The code of no light.</param>
    /// <param name="maximumCode">The highest code.</param>
    /// <returns>Whether the channel can be watched; one that cannot is left alone.</returns>
    public bool Add(ControlRole role, int rateHz, int zeroCode, int maximumCode) =>
        role == ControlRole.Dark ? _dark.Start(rateHz, zeroCode, maximumCode)
        : role < ControlRole.Dark && _lamps[(int)role].Light.Start(rateHz, zeroCode, maximumCode);

    /// <summary>Takes the next sample.</summary>
    /// <param name="settings">Settings.</param>
    /// <param name="role">Of which channel.</param>
    /// <param name="code">Its code.</param>
    /// <param name="status">Its status word.</param>
    /// <param name="index">Its index, rising.</param>
    /// <returns>Whether there is a <see cref="Request"/>.</returns>
    public bool Next(in LevelSettings settings, ControlRole role, int code, ushort status, long index)
    {
        if (role > ControlRole.Dark || (role == ControlRole.Dark ? _dark.RateHz : _lamps[(int)role].Light.RateHz) == 0)
        {
            return false;
        }

        if (role == ControlRole.Dark)
        {
            if (_dark.IsOver(index))
            {
                Close(index);
            }

            _dark.Take(code, status);
            return false;
        }

        ref Lamp lamp = ref _lamps[(int)role];
        bool isAsked = (lamp.Light.IsOver(index) || !lamp.IsStarted) && Close(settings, ref lamp, role, index);
        lamp.Light.Take(code, status);
        return isAsked;
    }

    private void Close(long index)
    {
        _lastDark = _dark.Count == 0 ? _lastDark : _dark.MeanOfClosed();
        _dark.Begin(index);
    }

    private bool Close(in LevelSettings settings, ref Lamp lamp, ControlRole role, long index)
    {
        bool isAsked = false;
        if (!lamp.IsStarted)
        {
            lamp.Begin(settings);
            _request = new ControlRequest(role, ControlSetting.LedCurrent, settings.StartMicroamp);
            isAsked = true;
        }
        else if (lamp.Light.Count > 0)
        {
            if (lamp.Judge(settings, Ambient(lamp, index), out int microamp))
            {
                lamp.Ask(isGain: false, microamp);
                _request = new ControlRequest(role, ControlSetting.LedCurrent, microamp);
                isAsked = true;
            }
            else if (lamp.Wish != GainWish.None)
            {
                isAsked = Grant(settings, lamp.Wish, lamp.GainMilli);
            }
        }

        lamp.Light.Begin(index);
        return isAsked;
    }

    // The gain changes only while nothing else is under way; upward only when no other channel would be driven to its end by it.
    private bool Grant(in LevelSettings settings, GainWish wish, int gainMilli)
    {
        for (int i = 0; i < Lamps; i++)
        {
            ref Lamp other = ref _lamps[i];
            bool isLow = wish == GainWish.Up && (other.Wish == GainWish.Down || other.Microamp < 4 * settings.LeastMicroamp);
            if (other.IsStarted && (other.IsAsked || isLow))
            {
                return false;
            }
        }

        int wanted = wish == GainWish.Up ? gainMilli * 2 : gainMilli >> 1;
        wanted = wanted > settings.MostGainMilli ? settings.MostGainMilli : wanted < settings.LeastGainMilli ? settings.LeastGainMilli : wanted;
        for (int i = 0; i < Lamps; i++)
        {
            if (_lamps[i].IsStarted)
            {
                _lamps[i].Ask(isGain: true, wanted);
            }
        }

        _request = new ControlRequest(ControlRole.AllLight, ControlSetting.Gain, wanted);
        return true;
    }

    // The second of the dark channel that was whole when this sample was taken; its range may differ from that of the lit channel.
    private readonly int Ambient(in Lamp lamp, long index)
    {
        if (_dark.RateHz == 0)
        {
            return 0;
        }

        int dark = _dark.Count > 0 && _dark.IsBefore(index, lamp.Light.RateHz) ? _dark.MeanOfClosed() : _lastDark;
        return dark <= 0 ? 0 : _dark.Room == lamp.Light.Room ? dark : (int)((long)dark * lamp.Light.Room / _dark.Room);
    }

    [InlineArray(Lamps)]
    private struct Lamps3
    {
        private Lamp _first;
    }
}
