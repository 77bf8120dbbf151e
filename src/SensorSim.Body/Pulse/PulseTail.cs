// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Dicrotic notch and diastolic peak: the first minimum after the systolic peak and the maximum after it.</summary>
internal static class PulseTail
{
    // Searched up to this long after the systolic peak, for a scale of 1 [s].
    private const double LimitSeconds = 0.65;
    private const double ScanStepSeconds = 0.02;

    // Where the rise from notch to diastolic peak is steepest, as a share of the time between the peaks.
    private const double ShoulderShare = 0.84;

    // A smaller rise is no notch that anyone could see [share of the pulse height].
    private const double LeastRise = 1e-3;

    /// <summary>Finds both, or none.</summary>
    /// <param name="sum">The earlier beats and the own components, at their start.</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="peak">Systolic peak, after the start [s].</param>
    /// <param name="height">Height of the pulse.</param>
    /// <param name="notch">Receives the notch, after the start [s]; NaN when there is none.</param>
    /// <param name="diastolic">Receives the diastolic peak likewise.</param>
    public static void Find(
        PulseSum sum, in PulseContour contour, double scale, double peak, double height, out double notch, out double diastolic)
    {
        double end = peak + (LimitSeconds * scale);
        double guess = peak + (ShoulderShare * contour.PeakToPeakSeconds * scale);
        if (!TryNear(sum, peak, end, guess, out notch, out diastolic, out double rise))
        {
            rise = Scan(sum, scale, peak, end, out notch, out diastolic) ? Rise(sum, notch, diastolic) : 0;
        }

        if (rise < LeastRise * height)
        {
            notch = double.NaN;
            diastolic = double.NaN;
        }
    }

    private static double Rise(PulseSum sum, double notch, double diastolic)
    {
        sum.At3(notch, out PulsePoint low);
        sum.At3(diastolic, out PulsePoint high);
        return high.Value - low.Value;
    }

    // From the place where the slope is largest: when the wave falls even there it has neither. False when the guess leads nowhere.
    private static bool TryNear(PulseSum sum, double peak, double end, double shoulder, out double notch, out double diastolic, out double rise)
    {
        notch = double.NaN;
        diastolic = double.NaN;
        rise = 0;
        if (sum.YoungestX < 1 || !PulseRoot.TryNear(sum, 2, peak, end, ref shoulder, out PulsePoint at) || at.Jerk >= 0)
        {
            return false;
        }

        if (at.Slope <= 0)
        {
            return true;
        }

        double half = Math.Sqrt(-2 * at.Slope / at.Jerk);
        double low = shoulder - half;
        double high = shoulder + half;
        if (!PulseRoot.TryNear(sum, 1, peak, shoulder, ref low, out PulsePoint bottom)
            || !PulseRoot.TryNear(sum, 1, shoulder, end, ref high, out PulsePoint top)
            || top.Curvature >= 0)
        {
            return false;
        }

        notch = low;
        diastolic = high;
        rise = top.Value - bottom.Value;
        return true;
    }

    // Step by step: where the slope turns positive, or is largest between two steps and positive there.
    private static bool Scan(PulseSum sum, double scale, double peak, double end, out double notch, out double diastolic)
    {
        double step = ScanStepSeconds * scale;
        notch = double.NaN;
        diastolic = double.NaN;
        PulsePoint last = default;
        double from = peak + (0.25 * step);
        for (double x = from; x < end; x += step)
        {
            sum.At3(x, out PulsePoint at);
            if (double.IsNaN(notch))
            {
                double top = x;
                if (x > from && at.Slope <= 0 && last.Curvature > 0 && at.Curvature < 0)
                {
                    top = PulseRoot.Between(sum, 2, 1, x - step, x);
                    sum.At3(top, out at);
                }

                if (at.Slope > 0)
                {
                    notch = PulseRoot.Between(sum, 1, -1, Math.Max(peak, x - step), top);
                    sum.At3(x, out at);
                    if (top < x)
                    {
                        diastolic = PulseRoot.Between(sum, 1, 1, top, x);
                        return true;
                    }
                }
            }
            else if (at.Slope <= 0)
            {
                diastolic = PulseRoot.Between(sum, 1, 1, x - step, x);
                return true;
            }

            last = at;
        }

        return false;
    }
}
