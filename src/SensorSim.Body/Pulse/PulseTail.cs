// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Dicrotic notch and diastolic peak: the first minimum after the systolic peak and the maximum after it.</summary>
internal static class PulseTail
{
    /// <summary>Searched up to this long after the systolic peak, for a scale of 1 [s].</summary>
    public const double LimitSeconds = 0.65;

    /// <summary>A smaller rise from notch to diastolic peak is none that anyone could see [share of the pulse height].</summary>
    public const double LeastRise = 1e-3;

    private const double ScanStepSeconds = 0.02;

    /// <summary>Finds both, or none.</summary>
    /// <param name="sum">The earlier beats and the own components, at their start.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="foot">Holds the peak and the height; receives notch and diastolic peak, NaN when there are none.</param>
    public static void Find(PulseSum sum, double scale, ref PulseFoot foot)
    {
        if (Scan(sum, scale, foot.Peak, foot.Peak + (LimitSeconds * scale), out foot.Notch, out foot.Diastolic))
        {
            sum.At3(foot.Notch, out PulsePoint low);
            sum.At3(foot.Diastolic, out PulsePoint high);
            if (high.Value - low.Value >= LeastRise * (foot.High - foot.Low))
            {
                return;
            }
        }

        foot.Notch = double.NaN;
        foot.Diastolic = double.NaN;
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
