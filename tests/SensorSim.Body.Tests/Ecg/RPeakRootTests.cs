// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Tests.Support;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>How near the solver of the R peak comes to the place where the slope of the clean voltage is 0.</summary>
public sealed class RPeakRootTests
{
    [TestCaseSource(typeof(Cases), nameof(Cases.Names))]
    public void RPeak_OfABody_LiesAtARootOfTheSlope(string name)
    {
        List<BeatView> beats = new Heartbeats(Cases.Values(name), 12, 300).Beats;
        double worst = 0;
        for (int i = 4; i < beats.Count - 4; i++)
        {
            double value = 0;
            double slope = 0;
            double curvature = 0;
            for (int k = i - 4; k <= i + 4; k++)
            {
                for (int wave = 0; wave < EcgBeat.Count; wave++)
                {
                    if (beats[k].Ecg[wave].Millivolts != 0)
                    {
                        beats[k].Ecg[wave].Accumulate(beats[i].R.Seconds, ref value, ref slope, ref curvature);
                    }
                }
            }

            Assert.That(beats[i].R.Millivolts, Is.EqualTo(value).Within(1e-10));
            worst = Math.Max(worst, Math.Abs(slope / curvature));
        }

        Assert.That(worst, Is.LessThan(1e-9));
    }
}
