// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Typing: small taps in bursts. Eight candidates a second; half of the four-second windows are bursts, three quarters of the candidates in them strokes.</summary>
/// <remarks>Candidates stand at keyed places whatever the size, so the knob only scales. Rates are choices of this project.</remarks>
internal sealed class Typing(KeyValues values, ulong seed)
{
    private const double PerSecond = 8;
    private const double BurstSeconds = 4;
    private const double TauSeconds = 0.006;
    private const int Draws = 4;
    private readonly LiveSize _size = new(values.Course(HandMovementKeys.TypingG));
    private readonly KeyedRandom _strokes = new(seed, "movement.typing");
    private readonly KeyedRandom _bursts = new(seed, "movement.typing_burst");

    /// <summary>Whether there is never anything of it.</summary>
    public bool IsOff => _size.IsOff;

    /// <summary>Acceleration at a time [g].</summary>
    public Axes At(double seconds)
    {
        Axes sum = default;
        for (long k = First(seconds); k <= Last(seconds); k++)
        {
            double at = Place(k);
            sum += Transient.At((seconds - at) / TauSeconds) * PeakG(k, at);
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

        for (long k = First(block.BeginSeconds); k <= Last(block.EndSeconds); k++)
        {
            double at = Place(k);
            Axes peak = PeakG(k, at);
            if (peak != default)
            {
                Transient.Add(block, at, TauSeconds, peak);
            }
        }
    }

    private static long First(double seconds) => (long)Math.Floor((seconds - (Transient.EndX * TauSeconds)) * PerSecond);

    private static long Last(double seconds) => (long)Math.Floor(seconds * PerSecond);

    private double Place(long k) => (k + _strokes.Uniform(Draws * k)) / PerSecond;

    private Axes PeakG(long k, double seconds)
    {
        double size = _size.At(seconds);
        bool isStroke = size != 0 && _strokes.Uniform((Draws * k) + 1) < 0.75 && _bursts.Uniform((long)Math.Floor(seconds / BurstSeconds)) < 0.5;
        return isStroke ? size * (0.5 + _strokes.Uniform((Draws * k) + 2)) * new Axes(0.3, (0.8 * _strokes.Uniform((Draws * k) + 3)) - 0.4, 1) : default;
    }
}
