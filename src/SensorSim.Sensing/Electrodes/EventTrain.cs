// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>
/// Random events one after the other, thinned from candidates of a fixed rate (<see cref="Candidates.EvenCandidates"/>, the same draws), with the
/// samples at which they show.
/// </summary>
/// <remarks>The draws of eight candidates are made at once. Copied by value, draws included. Not to be passed by value while in use.</remarks>
internal struct EventTrain
{
    private const int DrawsEach = 4;
    private const int Together = 8;

    private readonly KeyedRandom _random;
    private readonly double _stretchSeconds;
    private readonly SampleGrid _grid;
    private long _candidate;
    private long _block = long.MinValue;
    private Words _words;

    /// <summary>Creates a train.</summary>
    /// <param name="random">Its own source; candidate k uses draws 4k to 4k + 3.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="candidatesPerSecond">Candidate rate [1/s].</param>
    /// <param name="fromSeconds">No candidate whose stretch begins before this counts [s].</param>
    public EventTrain(KeyedRandom random, SampleGrid grid, double candidatesPerSecond, double fromSeconds)
    {
        _random = random;
        _stretchSeconds = 1 / candidatesPerSecond;
        _grid = grid;
        _candidate = (long)Math.Ceiling(fromSeconds / _stretchSeconds);
        Seconds = 0;
        Sample = 0;
        Draw();
        Place();
    }

    /// <summary>Time of the next candidate [s].</summary>
    public double Seconds { get; private set; }

    /// <summary>First sample at or after it, at least 0.</summary>
    public long Sample { get; private set; }

    /// <summary>Whether the candidate is an event.</summary>
    /// <param name="perSecond">Rate of events [1/s].</param>
    public readonly bool IsEvent(double perSecond) => Uniform(1) < perSecond * _stretchSeconds;

    /// <summary>The candidate's own standard normal number.</summary>
    public readonly double Normal() => InverseNormal.FromWord(Word(2));

    /// <summary>The candidate's own number from (0, 1).</summary>
    public readonly double Uniform() => Uniform(3);

    /// <summary>Goes on to the next candidate.</summary>
    public void Next()
    {
        _candidate++;
        Draw();
        Place();
    }

    /// <summary>Passes over candidates that are no events.</summary>
    /// <param name="limit">Candidates at this sample and later are left alone: the rate is asked for with a candidate's own first sample.</param>
    /// <param name="perSecond">Rate of events before that sample [1/s].</param>
    /// <returns>Where the next event shows; the limit or a later sample if there is none before it.</returns>
    public long NextEvent(long limit, double perSecond)
    {
        if (Sample >= limit || IsEvent(perSecond))
        {
            return Sample;
        }

        // One whose stretch ends by the last sample shows before the limit: whether it is an event is all that is asked.
        double last = _grid.Seconds(limit - 1);
        do
        {
            do
            {
                _candidate++;
                Draw();
            }
            while ((_candidate + 1) * _stretchSeconds <= last && !IsEvent(perSecond));

            Place();
        }
        while (Sample < limit && !IsEvent(perSecond));
        return Sample;
    }

    private void Draw()
    {
        // Rounds down also before time 0.
        long block = _candidate >> 3;
        if (block != _block)
        {
            _random.FillWords(_words, block * Together * DrawsEach);
            _block = block;
        }
    }

    private void Place()
    {
        Seconds = (_candidate + Uniform(0)) * _stretchSeconds;
        Sample = Math.Max(0, _grid.FirstAtOrAfter(Seconds));
    }

    private readonly uint Word(int draw) => _words[(int)((_candidate & (Together - 1)) * DrawsEach) + draw];

    // As KeyedRandom.Uniform has it.
    private readonly double Uniform(int draw) => (Word(draw) + 0.5) * (1.0 / 4294967296.0);

    [InlineArray(Together * DrawsEach)]
    private struct Words
    {
        private uint _first;
    }
}
