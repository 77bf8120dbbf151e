// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>A train of damped transients thinned from candidates at keyed places, so many a second whatever the knobs say.</summary>
/// <param name="random">Source of the candidates; draw <paramref name="draws"/> · k is the place of candidate k, the three after it decide what it is.</param>
/// <param name="draws">Draws that a candidate has.</param>
/// <param name="perSecond">Candidates in a second.</param>
/// <param name="tauSeconds">Time constant of a transient [s].</param>
internal abstract class Strikes(KeyedRandom random, int draws, double perSecond, double tauSeconds)
{
    /// <summary>Whether there is never anything of it.</summary>
    public abstract bool IsOff { get; }

    /// <summary>Acceleration at a time [g].</summary>
    public Axes At(double seconds)
    {
        Span<uint> words = stackalloc uint[4];
        Axes sum = default;
        for (long k = First(seconds); k <= Last(seconds); k++)
        {
            random.FillWords(words, draws * k);
            double at = Place(k, words);
            sum += Transient.At((seconds - at) / tauSeconds) * PeakG(k, at, words);
        }

        return sum;
    }

    /// <summary>Adds the acceleration to a block.</summary>
    public void Add(MovementBlock block)
    {
        if (IsOff)
        {
            return;
        }

        Span<uint> words = stackalloc uint[4];
        long last = Last(block.EndSeconds);
        for (long k = First(block.BeginSeconds); k <= last; k++)
        {
            random.FillWords(words, draws * k);
            double at = Place(k, words);
            Axes peak = PeakG(k, at, words);
            if (peak != default)
            {
                Transient.Add(block, at, tauSeconds, peak);
            }
        }
    }

    /// <summary>Peak of a candidate [g]; nothing when it is not kept.</summary>
    /// <param name="k">Number of the candidate.</param>
    /// <param name="seconds">Its place [s].</param>
    /// <param name="words">Words of its first four draws.</param>
    protected abstract Axes PeakG(long k, double seconds, ReadOnlySpan<uint> words);

    /// <summary>The number between 0 and 1 that a draw's word stands for, as <see cref="KeyedRandom.Uniform"/> has it.</summary>
    protected static double Uniform(uint word) => (word + 0.5) * (1.0 / 4294967296.0);

    private long First(double seconds) => (long)Math.Floor((seconds - (Transient.EndX * tauSeconds)) * perSecond);

    private long Last(double seconds) => (long)Math.Floor(seconds * perSecond);

    private double Place(long k, ReadOnlySpan<uint> words) => (k + Uniform(words[0])) / perSecond;
}
