// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Sixteen slopes round a place of the ECG smoothed by 1-2-1, and the place near another where a shape fits best; in doubles.</summary>
internal sealed class BeatShapeTwin(double[] ecg, BeatWindows w)
{
    private const int Points = 16;
    private const int Before = 7;

    /// <summary>Slopes round a place, divided by the power of two that leaves twelve bits before the point.</summary>
    public (double[] Slopes, int Scale) Read(int at)
    {
        double[] slopes = [.. Enumerable.Range(0, Points).Select(i => SlopeAt(at + ((i - Before) * w.ShapeStep)))];
        int scale = ScaleOf(slopes);
        return ([.. slopes.Select(s => Math.ScaleB(s, -scale))], scale);
    }

    /// <summary>The place near a middle at which a template fits best, relative to it [working samples], and how well [1/256].</summary>
    public (int At, double Fit) Find(int middle, BeatTemplateTwin template)
    {
        (int At, double Fit) best = (-w.ShapeReach * w.ShapeStep, 0);
        for (int j = -w.ShapeReach; j <= w.ShapeReach; j++)
        {
            double fit = template.Fit(Read(middle + (j * w.ShapeStep)).Slopes);
            best = fit > best.Fit ? (j * w.ShapeStep, fit) : best;
        }

        return best;
    }

    private static int ScaleOf(double[] slopes)
    {
        double largest = slopes.Max(Math.Abs);
        return largest == 0 ? 0 : Math.ILogB(largest) - 11;
    }

    private double SlopeAt(int at) => Smooth(at + w.ShapeStep) - Smooth(at - w.ShapeStep);

    private double Smooth(int at)
    {
        int arm = (w.ShapeStep + 1) >> 1;
        return At(at - arm) + (2 * At(at)) + At(at + arm);
    }

    private double At(int at) => ecg[Math.Clamp(at, 0, ecg.Length - 1)];
}
