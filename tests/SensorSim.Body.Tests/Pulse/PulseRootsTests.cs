// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Body.Tests.Support;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>How near the solver comes to the places where the derivatives of the pulse are 0: far nearer than the 10 µs that truth must keep.</summary>
/// <remarks>Measured by Newton's step from the landmark, with the derivatives of the formulas. A flat notch is where digits end first.</remarks>
public sealed class PulseRootsTests
{
    private const double Reached = 5e-9;

    [TestCaseSource(typeof(Cases), nameof(Cases.Names))]
    public void Landmarks_OfABody_LieAtTheRoots(string name)
    {
        List<BeatView> beats = new Heartbeats(Cases.Values(name), 12, 300).Beats;
        List<PulseBeat> pulses = [.. beats.Select(b => b.Pulse)];
        double worst = 0;
        for (int i = 24; i < beats.Count; i++)
        {
            double scale = PulseContour.Scale(60 / beats[i].RecentRrSeconds);
            worst = Math.Max(worst, Off(pulses, i, scale, beats[i].Landmarks));
        }

        Assert.That(worst, Is.LessThan(Reached));
    }

    [TestCaseSource(typeof(PulseTrain), nameof(PulseTrain.Classes))]
    public void Landmarks_OfEachClass_LieAtTheRoots(string name)
    {
        var train = new PulseTrain(name, 240);
        double worst = train.Tested.Where(i => train.Landmarks[i].HasFoot).Max(i => Off(train.Beats, i, train.Scale, train.Landmarks[i]));
        Assert.That(worst, Is.LessThan(Reached));
    }

    // The farthest of a pulse's landmarks from its root [s].
    private static double Off(List<PulseBeat> beats, int index, double scale, PulseLandmarks p)
    {
        var sum = new PulseSum();
        for (int k = Math.Max(0, index - PulseSum.Beats); k < index; k++)
        {
            sum.AddEarlier(beats[k], 1, p.FootTangentSeconds - (PulseSolver.ReachSeconds * scale));
        }

        sum.SetOwn(beats[index]);
        PulsePoint low = sum.At(p.FootMinimumSeconds);
        PulsePoint steep = sum.At(p.SteepestSeconds);
        PulsePoint bend = sum.At(p.FootSecondDerivativeSeconds);
        double tangent = p.SteepestSeconds + ((low.Value - steep.Value) / steep.Slope);
        List<double> off = [steep.Curvature / steep.Jerk, bend.Jerk / bend.JerkSlope, tangent - p.FootTangentSeconds, Extreme(p.SystolicPeakSeconds)];
        if (low.Slope != 0)
        {
            off.Add(low.Slope / low.Curvature);
        }

        if (!double.IsNaN(p.DicroticNotchSeconds))
        {
            off.Add(Extreme(p.DicroticNotchSeconds));
            off.Add(Extreme(p.DiastolicPeakSeconds));
        }

        return off.Max(Math.Abs);

        double Extreme(double seconds)
        {
            PulsePoint at = sum.At(seconds);
            return at.Slope / at.Curvature;
        }
    }
}
