// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pressure;
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
    private GridCursor _ecgAt;
    private GridCursor _lightAt;
    private GridCursor _darkAt;
    private GridCursor _accelAt;
    private ChannelRole _lightRole;
    private long _now;

    // A tenth of a second is so many ticks and tenths of one; what has not made a whole tick yet.
    private long _wholeTenth;
    private int _restTenth;
    private int _rest;

    /// <summary>Tick up to which all samples have been taken.</summary>
    public readonly long NowTick => _now;

    /// <summary>Where the next slice must end at the latest: the end of the present tenth of a second.</summary>
    public long SliceEndTick { get; private set; }

    /// <summary>Why the last calibration or spot arrival time gave no pressure; none without a calibration.</summary>
    public readonly PressureRefusal PressureRefusal => _joint.Pressure.Refusal;

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="setup">What the stream is like.</param>
    /// <param name="options">What it must be told of sensor and wearer.</param>
    /// <returns>The channel whose rate the library cannot work with, or none when all is well.</returns>
    public ChannelRole Start(in LibrarySetup setup, in LibraryOptions options)
    {
        this = default;
        _lightRole = setup.Light;
        _ecgAt = new GridCursor(setup[ChannelRole.Ecg].TicksPerSample);
        _lightAt = new GridCursor(_lightRole == ChannelRole.None ? 0 : setup[_lightRole].TicksPerSample);
        _darkAt = new GridCursor(setup[ChannelRole.Dark].TicksPerSample);
        _accelAt = new GridCursor(setup[ChannelRole.AccelX].TicksPerSample);
        _wholeTenth = setup.Clock.TicksPerSecond / 10;
        _restTenth = (int)(setup.Clock.TicksPerSecond - (10 * _wholeTenth));
        NextTenth();
        if (!_ecg.Start(setup[ChannelRole.Ecg], options.Tuning))
        {
            return ChannelRole.Ecg;
        }

        if (!_light.Start(setup, options.Oxygen, options.Tuning))
        {
            return setup.Light;
        }

        _joint.Start(setup, options);
        return ChannelRole.None;
    }

    /// <summary>Takes a calibration of the pressure while running, in place of the one before; the trend begins anew.</summary>
    /// <param name="calibration">The calibration; its times on the clock of <see cref="LibraryOptions.StartS"/>.</param>
    /// <returns>Whether it holds; a refused one leaves none, and <see cref="PressureRefusal"/> says why.</returns>
    public bool Calibrate(in PressureCalibration calibration) => _joint.Pressure.Calibrate(calibration);

    /// <summary>Takes the samples of all channels up to a tick, at most a tenth of a second after the last.</summary>
    /// <param name="input">The samples from the last call's tick up to this one; earlier or later ones are not looked at.</param>
    /// <param name="untilTick">The tick.</param>
    /// <param name="answers">Gets what was found.</param>
    /// <param name="probe">Sees intermediate values.</param>
    public void Take<TProbe>(scoped in LibraryInput input, long untilTick, ref AnswerList answers, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        FoundList found = default;
        _ecg.Take(_ecgAt.Advance(input.Ecg, untilTick), ref found, ref probe);
        ChannelPiece light = _lightRole switch
        {
            ChannelRole.Infrared => input.Infrared,
            ChannelRole.Red => input.Red,
            _ => input.Green,
        };
        var beside = new Beside
        {
            Red = input.Red,
            Dark = _darkAt.Advance(input.Dark, untilTick),
            X = _accelAt.Advance(input.AccelX, untilTick),
            Y = input.AccelY,
            Z = input.AccelZ,
        };
        _light.Take(_lightAt.Advance(light, untilTick), ref beside, untilTick - 1, ref found, ref probe);
        Join(found, ref answers);

        bool isEnd = untilTick == SliceEndTick;
        _now = untilTick;
        if (isEnd)
        {
            NextTenth();
            _joint.EndTenth(ref _ecg, ref _light, untilTick, ref answers);
        }
    }

    /// <summary>No more samples follow: decides about what is held.</summary>
    /// <param name="answers">Gets what was found.</param>
    public void Flush(ref AnswerList answers)
    {
        FoundList found = default;
        _ecg.Flush(_now - 1, ref found);
        Join(found, ref answers);
    }

    private void Join(in FoundList found, ref AnswerList answers)
    {
        for (int i = 0; i < found.Count; i++)
        {
            _joint.Take(found, i, ref _light, ref answers);
        }
    }

    // Tick of the n-th tenth is n × ticks per second / 10, rounded down; kept with its rest.
    private void NextTenth()
    {
        SliceEndTick += _wholeTenth;
        _rest += _restTenth;
        if (_rest >= 10)
        {
            _rest -= 10;
            SliceEndTick++;
        }
    }
}
