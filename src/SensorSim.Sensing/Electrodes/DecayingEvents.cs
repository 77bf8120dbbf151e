// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>A source of sudden voltages that die away: steps of the half-cell voltage, pops, overloads.</summary>
/// <remarks>
/// Events enter through <see cref="FrontEndResponse"/>. Drawn sizes have mean 0, so events do not correlate and the power of a steady
/// train is rate × size² × <see cref="FrontEndResponse.Energy"/> (Campbell's theorem). Rate and size of an event are those at its first sample.
/// </remarks>
internal sealed class DecayingEvents
{
    // Events this many time constants before the start are forgotten there.
    private const double Remembered = 12;

    private readonly SampleGrid _grid;
    private readonly bool _isRandom;
    private readonly bool _isSizeDrawn;
    private readonly double _atSeconds;
    private EventTrain _train;
    private FrontEndResponse _response;
    private long _atSample;

    /// <summary>Creates a source.</summary>
    /// <param name="random">Its own source of draws.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="rateHz">Sampling rate [Hz], for the low-pass.</param>
    /// <param name="decaySeconds">Time constant with which an event dies away [s].</param>
    /// <param name="candidatesPerSecond">Highest rate of events [1/s]; 0: none at random.</param>
    /// <param name="isSizeDrawn">Whether sizes are drawn; an overload has a given size.</param>
    /// <param name="atSeconds">Time of one more event [s]; NaN: none.</param>
    public DecayingEvents(
        KeyedRandom random, SampleGrid grid, double rateHz, double decaySeconds, double candidatesPerSecond, bool isSizeDrawn, double atSeconds = double.NaN)
    {
        _grid = grid;
        _isRandom = candidatesPerSecond > 0;
        _isSizeDrawn = isSizeDrawn;
        _response = new FrontEndResponse(FrontEndResponse.Omega(rateHz), decaySeconds, grid.StepSeconds);

        // Steps and pops were there before the stream began; an overload was not.
        double begin = grid.Seconds(0) - (isSizeDrawn ? Remembered * decaySeconds : 0);
        _train = _isRandom ? new EventTrain(random, grid, candidatesPerSecond, begin) : default;
        _atSeconds = atSeconds;
        _atSample = double.IsNaN(atSeconds) ? long.MaxValue : Math.Max(0, grid.FirstAtOrAfter(atSeconds));
    }

    /// <summary>Adds the events to samples.</summary>
    /// <param name="buffer">The samples.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="perSecond">Rate of events [1/s].</param>
    /// <param name="millivolts">Size of an event, or its rms where sizes are drawn [mV].</param>
    public void Add(Span<double> buffer, long firstIndex, double perSecond, double millivolts)
    {
        long end = firstIndex + buffer.Length;
        for (int done = 0; done < buffer.Length;)
        {
            long random = _isRandom ? _train.NextEvent(end, perSecond) : end;
            long next = Math.Max(Math.Min(Math.Min(random, _atSample), end), firstIndex + done);
            int until = (int)(next - firstIndex);
            _response.AddTo(buffer[done..until]);
            done = until;
            if (done == buffer.Length)
            {
                return;
            }

            double now = _grid.Seconds(next);
            if (_atSample <= random)
            {
                _response.Begin(millivolts, now - _atSeconds);
                _atSample = long.MaxValue;
            }
            else
            {
                _response.Begin(_isSizeDrawn ? millivolts * _train.Normal() : millivolts, now - _train.Seconds);
                _train.Next();
            }
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public DecayingEvents Copy() => (DecayingEvents)MemberwiseClone();
}
