// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

/// <summary>The whole library: samples of all channels in, answers out. A value of fixed size: an assignment copies the whole state.</summary>
/// <remarks>
/// <para>Time goes on in slices that end at every tenth of a second of the common clock, or where the caller's samples end. Inside of a slice each
/// channel is worked through by itself; what was found is then taken in order of tick, and the gates look at the end of each tenth. A slice
/// that the caller has cut in two gives the same answers, so no cut of the stream shows.</para>
/// <para>
/// Input: codes of up to 24 bits with status words.
/// Product: see the stages.
/// Accumulator: ticks in 64 bits.
/// Worst case: see the stages.
/// Output: at most <see cref="AnswerList.Most"/> answers in a tenth of a second.
/// </para>
/// </remarks>
public struct Library
{
    private EcgPath _ecg;
    private LightPath _light;
    private JointPath _joint;
    private LibrarySetup _setup;
    private long _now;
    private long _sliceEnd;
    private long _nextDark;
    private long _nextAccel;
    private int _tenth;
    private byte _rest;
    private byte _restSum;

    /// <summary>Tick up to which all samples have been taken.</summary>
    public readonly long NowTick => _now;

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="setup">What the stream is like.</param>
    /// <param name="options">What it must be told of sensor and wearer.</param>
    /// <returns>The channel whose rate the library cannot work with, or none when all is well.</returns>
    public ChannelRole Start(in LibrarySetup setup, in LibraryOptions options)
    {
        this = default;
        _setup = setup;
        if (!_ecg.Start(setup[ChannelRole.Ecg]))
        {
            return ChannelRole.Ecg;
        }

        if (!_light.Start(setup, options.Oxygen))
        {
            return setup.Light;
        }

        _joint.Start(setup);
        _tenth = (int)(setup.Clock.TicksPerSecond / 10);
        _rest = (byte)(setup.Clock.TicksPerSecond - (10L * _tenth));
        NextTenth();
        return ChannelRole.None;
    }

    /// <summary>Takes the samples of all channels up to a tick, at most a tenth of a second after the last.</summary>
    /// <param name="input">The samples from the last call's tick up to this one; earlier or later ones are not looked at.</param>
    /// <param name="untilTick">The tick.</param>
    /// <param name="answers">Gets what was found.</param>
    /// <param name="probe">Sees intermediate values.</param>
    public void Take<TProbe>(scoped in LibraryInput input, long untilTick, ref AnswerList answers, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        FoundList found = default;
        _ecg.Take(_ecg.State.Cut(input.Ecg, untilTick), ref found, ref probe);
        ChannelPiece light = _setup.Light switch
        {
            ChannelRole.Infrared => input.Infrared,
            ChannelRole.Red => input.Red,
            _ => input.Green,
        };
        var beside = new Beside
        {
            Red = input.Red,
            Dark = ChannelState.Cut(input.Dark, ref _nextDark, _setup[ChannelRole.Dark].TicksPerSample, untilTick),
            X = ChannelState.Cut(input.AccelX, ref _nextAccel, _setup[ChannelRole.AccelX].TicksPerSample, untilTick),
            Y = input.AccelY,
            Z = input.AccelZ,
        };
        _light.Take(_light.State.Cut(light, untilTick), ref beside, untilTick - 1, ref found, ref probe);
        for (int i = 0; i < found.Count; i++)
        {
            _joint.Take(found, i, ref _light, ref answers);
        }

        bool isEnd = untilTick == _sliceEnd;
        _now = untilTick;
        if (isEnd)
        {
            NextTenth();
            _joint.EndTenth(ref _ecg, ref _light, untilTick, ref answers);
        }
    }

    /// <summary>Where the next slice must end at the latest: the end of the present tenth of a second.</summary>
    public readonly long SliceEndTick => _sliceEnd;

    /// <summary>No more samples follow: decides about what is held.</summary>
    /// <param name="answers">Gets what was found.</param>
    public void Flush(ref AnswerList answers)
    {
        FoundList found = default;
        _ecg.Flush(_now - 1, ref found);
        for (int i = 0; i < found.Count; i++)
        {
            _joint.Take(found, i, ref _light, ref answers);
        }
    }

    // Tenth k ends at floor(k × ticks per second / 10): the rests add up, and make a tick when they are ten.
    private void NextTenth()
    {
        _sliceEnd += _tenth;
        _restSum += _rest;
        if (_restSum >= 10)
        {
            _restSum -= 10;
            _sliceEnd++;
        }
    }
}
