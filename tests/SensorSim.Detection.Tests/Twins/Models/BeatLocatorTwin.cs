// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>R peak, its deviation and the steepest slope of the complex round a place, in doubles.</summary>
internal readonly record struct BeatPlace(double Position, double Deviation, double Slope);

/// <summary>Finds the QRS complex and the R peak inside it, in doubles.</summary>
internal sealed class BeatLocatorTwin(double[] ecg, BeatWindows w)
{
    /// <summary>The complex round the middle of a hump.</summary>
    public BeatPlace Locate(int middle, int last) => Measure(middle, last, w.SteepReach, w.QrsReach);

    /// <summary>The complex whose R peak is known to lie near a place.</summary>
    public BeatPlace LocateNear(int near, int last) => Measure(near, last, w.Quiet, w.NearReach);

    private BeatPlace Measure(int middle, int last, int steepReach, int reach)
    {
        int newest = last - middle - w.SlopeArm - w.PeakArm;
        int steepest = 0;
        double slope = -1;
        for (int i = -steepReach; i <= Math.Min(steepReach, newest); i++)
        {
            double here = SlopeAt(middle + i);
            (slope, steepest) = here > slope ? (here, i) : (slope, steepest);
        }

        double limit = QuietLimit(middle, slope);
        int begin = Edge(middle, steepest, -1, limit, newest);
        int end = Edge(middle, steepest, +1, limit, newest);
        double level = 0;
        for (int i = 0; i < 4; i++)
        {
            level += At(middle + begin - w.SlopeArm - ((i * w.Quiet) >> 2)) / 4;
        }

        int best = Math.Max(begin, -reach);
        double largest = -1;
        for (int i = best; i <= Math.Min(end, reach); i++)
        {
            double deviation = Math.Abs(Smooth(middle + i) - level);
            (largest, best) = deviation > largest ? (deviation, i) : (largest, best);
        }

        double top = Smooth(middle + best);
        double left = top - Smooth(middle + best - w.PeakArm);
        double right = top - Smooth(middle + best + w.PeakArm);
        double offset = left + right == 0 ? 0 : Math.Clamp((left - right) / (2 * (left + right)), -0.5, 0.5);
        return new BeatPlace(middle + best + (offset * w.PeakArm), top - level, slope);
    }

    private double QuietLimit(int middle, double slope)
    {
        int stride = (w.QrsReach + 15) >> 4;
        double sum = 0;
        for (int i = 0; i < 16; i++)
        {
            sum += SlopeAt(middle - w.QrsReach - (i * stride)) / 8;
        }

        return Math.Clamp(sum, slope / 8, 3 * slope / 8);
    }

    private int Edge(int middle, int steepest, int step, double limit, int newest)
    {
        int edge = steepest;
        int at = steepest;
        for (int left = w.QrsReach - (at * step); left > 0 && at + step <= newest; left--)
        {
            at += step;
            if (SlopeAt(middle + at) > limit)
            {
                edge = at;
            }
            else if ((at - edge) * step >= w.Quiet)
            {
                break;
            }
        }

        return edge;
    }

    private double SlopeAt(int at) => Math.Abs(At(at + w.SlopeArm) - At(at - w.SlopeArm));

    private double Smooth(int at)
    {
        int arm = (w.PeakArm + 1) >> 1;
        return (At(at - arm) + (2 * At(at)) + At(at + arm)) / 4;
    }

    private double At(int at) => ecg[Math.Clamp(at, 0, ecg.Length - 1)];
}
