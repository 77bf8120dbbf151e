// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Candidates;

/// <summary>Candidates of random events: one at an even place in each of equal stretches of time, each with draws of its own.</summary>
/// <remarks>
/// A candidate counts when a draw of its own lies below rate × stretch. So a higher rate adds events and moves none, and any candidate may be
/// asked for by number: no cut changes a bit. The mean rate is exact up to one event a stretch; near that, events come more evenly than a
/// Poisson process.
/// </remarks>
/// <param name="random">Their own source; candidate k has draws 4k to 4k + 3.</param>
/// <param name="stretchSeconds">Length of a stretch [s]; candidate k lies between k and k + 1 stretches after time 0.</param>
internal readonly struct EvenCandidates(KeyedRandom random, double stretchSeconds)
{
    /// <summary>Which of a candidate's draws decides whether it is an event.</summary>
    public const int EventDraw = 1;

    private const int DrawsEach = 4;

    /// <summary>Number of the candidate in whose stretch a time lies.</summary>
    /// <param name="seconds">Time [s].</param>
    public long At(double seconds) => (long)Math.Floor(seconds / stretchSeconds);

    /// <summary>Number of the first candidate whose stretch begins at or after a time.</summary>
    /// <param name="seconds">Time [s].</param>
    public long From(double seconds) => (long)Math.Ceiling(seconds / stretchSeconds);

    /// <summary>Time of a candidate [s].</summary>
    /// <param name="candidate">Its number.</param>
    public double Seconds(long candidate) => (candidate + random.Uniform(DrawsEach * candidate)) * stretchSeconds;

    /// <summary>Whether a candidate is an event.</summary>
    /// <param name="candidate">Its number.</param>
    /// <param name="perSecond">Rate of events [1/s].</param>
    public bool IsEvent(long candidate, double perSecond) => random.Uniform((DrawsEach * candidate) + EventDraw) < perSecond * stretchSeconds;

    /// <summary>A candidate's own number from (0, 1).</summary>
    /// <param name="candidate">Its number.</param>
    /// <param name="which">0 or 1.</param>
    public double Uniform(long candidate, int which) => random.Uniform((DrawsEach * candidate) + 2 + which);

    /// <summary>A candidate's own standard normal number; the same draw as <see cref="Uniform"/> 0.</summary>
    /// <param name="candidate">Its number.</param>
    public double Normal(long candidate) => random.Normal((DrawsEach * candidate) + 2);
}
