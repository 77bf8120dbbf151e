// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>A train of damped transients thinned from candidates at keyed places, so many a second whatever the knobs say.</summary>
/// <param name="random">Source of the candidates; draw 4 k is the place of candidate k, the three after it decide what it is.</param>
/// <param name="perSecond">Candidates in a second.</param>
/// <param name="tauSeconds">Time constant of a transient [s].</param>
internal abstract class Strikes(KeyedRandom random, double perSecond, double tauSeconds)
{
    /// <summary>Whether there is never anything of it.</summary>
    public abstract bool IsOff { get; }

    /// <summary>Time constant of a transient [s].</summary>
    public double TauSeconds => tauSeconds;

    /// <summary>Room for the words of the candidates about a block.</summary>
    public CandidateWords Words() => new(random, MayAct);

    /// <summary>Acceleration at a time [g].</summary>
    public Axes At(double seconds)
    {
        CandidateWords words = Words();
        Axes sum = default;
        for (long k = First(seconds); k <= Last(seconds); k++)
        {
            double at = Place(k, words.Of(k));
            sum += Transient.At((seconds - at) / tauSeconds) * PeakG(at, words.Of(k));
        }

        return sum;
    }

    /// <summary>Adds the acceleration to a block.</summary>
    /// <param name="block">The block.</param>
    /// <param name="words">Words of candidates that the blocks of its grid keep.</param>
    /// <param name="pace">How a transient goes on.</param>
    public void Add(MovementBlock block, CandidateWords words, in TransientPace pace)
    {
        if (IsOff)
        {
            return;
        }

        long last = Last(block.EndSeconds);
        for (long k = First(block.BeginSeconds); k <= last; k++)
        {
            if (!words.MayAct(k))
            {
                continue;
            }

            ReadOnlySpan<uint> own = words.Of(k);
            double at = Place(k, own);
            Axes peak = PeakG(at, own);
            if (peak != default)
            {
                Transient.Add(block, at, pace, peak);
            }
        }
    }

    /// <summary>Peak of a candidate [g]; nothing when it is not kept.</summary>
    /// <param name="seconds">Its place [s].</param>
    /// <param name="words">Its words; the first one is its place.</param>
    protected abstract Axes PeakG(double seconds, ReadOnlySpan<uint> words);

    /// <summary>Whether a candidate may be kept, as far as its words alone say.</summary>
    /// <param name="words">Its words.</param>
    protected abstract bool MayAct(ReadOnlySpan<uint> words);

    /// <summary>The number between 0 and 1 that a draw's word stands for, as <see cref="KeyedRandom.Uniform"/> has it.</summary>
    protected static double Uniform(uint word) => (word + 0.5) * (1.0 / 4294967296.0);

    private long First(double seconds) => (long)Math.Floor((seconds - (Transient.EndX * tauSeconds)) * perSecond);

    private long Last(double seconds) => (long)Math.Floor(seconds * perSecond);

    private double Place(long k, ReadOnlySpan<uint> words) => (k + Uniform(words[0])) / perSecond;
}
