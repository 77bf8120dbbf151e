// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Tests.Support;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>The true R peak against its definition, searched for by brute force on the clean voltage at 1 MHz.</summary>
/// <remarks>
/// Definition: the largest absolute deviation from the level before the QRS, inside the QRS, on the clean lead voltage; ambiguous
/// when the largest deviation of the other sign exceeds 80 % of it. Required: 10 µs.
/// </remarks>
public sealed class RPeakTruthTests
{
    private const double StepSeconds = 1e-6;

    [TestCaseSource(typeof(Cases), nameof(Cases.Names))]
    public void Seconds_AgainstBruteForce_Within10Microseconds(string name)
    {
        var heart = new Heartbeats(Cases.Values(name), 11, 60);
        var random = new Random(3);
        for (int n = 0; n < 13; n++)
        {
            int id = random.Next(12, heart.Beats.Count - 6);
            BeatView beat = heart.Beats[id];
            Found found = Search(DirectWaves.Round(heart.Beats, id), beat.Ecg);
            Assert.That(beat.R.Seconds, Is.EqualTo(found.Seconds).Within(10e-6), $"beat {id}");
            Assert.That(beat.R.Millivolts, Is.EqualTo(found.Millivolts).Within(1e-6), $"beat {id}");
            Assert.That(beat.R.IsAmbiguous, Is.EqualTo(found.Share > 0.8), $"beat {id}, share {found.Share}");
        }
    }

    [TestCase(-0.70, false)]
    [TestCase(-0.90, true)]
    [TestCase(-1.15, true)]
    [TestCase(-1.40, false)]
    public void IsAmbiguous_SShareOfR_FollowsThe80PercentRule(double sMv, bool expected)
    {
        // R and S overlap by exp(-(0.25/0.0894)²/2) = 2 %, so that the heights are those of the knobs but for some percent.
        var values = Cases.Values("default").Set(EcgKeys.SMv, sMv).Set(EcgKeys.QMv, 0);
        Assert.That(new Heartbeats(values, 1, 30).Beats.Skip(5).Select(b => b.R.IsAmbiguous), Is.All.EqualTo(expected));
    }

    private static Found Search(DirectWaves waves, EcgBeat ecg)
    {
        // The edges at 2 % of a wave's peak: √(2 ln 50) standard deviations.
        double edge = Math.Sqrt(2 * Math.Log(50));
        double onset = ecg[EcgBeat.Q].CentreSeconds - (edge * ecg[EcgBeat.Q].SigmaSeconds);
        double end = ecg[EcgBeat.S].CentreSeconds + (edge * ecg[EcgBeat.S].SigmaSeconds);
        double level = waves.Ecg(onset);
        double up = 0;
        double down = 0;
        double upAt = 0;
        double downAt = 0;
        for (double t = onset; t <= end; t += StepSeconds)
        {
            double deviation = waves.Ecg(t) - level;
            (up, upAt) = deviation > up ? (deviation, t) : (up, upAt);
            (down, downAt) = -deviation > down ? (-deviation, t) : (down, downAt);
        }

        return up > down ? new Found(upAt, level + up, down / up) : new Found(downAt, level - down, up / down);
    }

    private readonly record struct Found(double Seconds, double Millivolts, double Share);
}
