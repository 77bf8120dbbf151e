// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>A train of keyed random pulses of one class, placed one after the other as a body does it.</summary>
internal sealed class PulseTrain
{
    /// <summary>Classes of pulses: what stands for what could go wrong.</summary>
    public static readonly string[] Classes =
    [
        "normal", "premature weak", "after a pause", "stiff", "soft", "fast", "slow", "wrist", "ear", "chest", "high reflection",
    ];

    private readonly KeyedRandom _random;
    private readonly PulseSum _sum = new();
    private double _foot = 5;

    public PulseTrain(string name, int count)
    {
        _random = new KeyedRandom(21, "tests.pulse_train." + name);
        Contour = name switch
        {
            "stiff" => new PulseContour(PulseSite.Finger, 12, 50, 1.7),
            "soft" => new PulseContour(PulseSite.Finger, 5, 60, 1.9),
            "high reflection" => new PulseContour(PulseSite.Finger, 8, 80, 1.7),
            "wrist" or "ear" or "chest" => new PulseContour(PulseSite.Named(name), 7, 50, 1.7),
            _ => new PulseContour(PulseSite.Finger, 7, 50, 1.7),
        };
        double rate = name == "fast" ? 150 : name == "slow" ? 38 : 65;
        Scale = PulseContour.Scale(rate);
        bool hasPremature = name is "premature weak" or "after a pause";
        for (int i = 0; i < count; i++)
        {
            // Every fourth beat comes early and weak, the one after it late and strong.
            double q = 1 + (0.1 * (U(3 * i) - 0.5));
            bool isPremature = hasPremature && i % 4 == 2;
            bool isAfter = hasPremature && i % 4 == 3;
            q = isPremature ? 0.5 + (0.4 * U((3 * i) + 1)) : isAfter ? 1.2 + (0.6 * U((3 * i) + 1)) : q;
            Add(q * 60 / rate, PulseFilling.Gain(q, 1) * (1 + (0.2 * (U((3 * i) + 2) - 0.5))));
            if (i >= 20 && i < count - 4 && (!hasPremature || (name == "premature weak" ? isPremature : isAfter)))
            {
                Tested.Add(i);
            }
        }
    }

    public PulseContour Contour { get; }

    public double Scale { get; }

    /// <summary>Beats that are of the class.</summary>
    public List<int> Tested { get; } = [];

    public List<PulseBeat> Beats { get; } = [];

    public List<PulseLandmarks> Landmarks { get; } = [];

    /// <summary>Wanted feet by tangents [s].</summary>
    public List<double> Feet { get; } = [];

    /// <summary>The landmarks for a light whose gains differ from beat to beat.</summary>
    public PulseLandmarks Solve(int index, double[] gains)
    {
        Gather(index, gains);
        return PulseSolver.Solve(_sum, Beats[index], Contour, Scale);
    }

    private void Add(double rrSeconds, double height)
    {
        _foot += rrSeconds;
        int index = Beats.Count;
        Feet.Add(_foot);
        Gather(index, null);
        Landmarks.Add(PulseSolver.Place(_sum, _foot, Contour, Scale, height, out PulseBeat beat));
        Beats.Add(beat);
    }

    private void Gather(int index, double[]? gains)
    {
        _sum.Clear();
        for (int k = Math.Max(0, index - PulseSum.Beats); k < index; k++)
        {
            _sum.AddEarlier(Beats[k], gains == null ? 1 : gains[k] / gains[index], Feet[index] - (PulseSolver.ReachSeconds * Scale));
        }
    }

    private double U(int index) => _random.Uniform(index);
}
