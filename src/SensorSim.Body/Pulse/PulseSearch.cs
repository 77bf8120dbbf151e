// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Start and landmarks of any pulse: brackets and halvings, slower and safe.</summary>
internal static class PulseSearch
{
    private const int Rounds = 100;
    private const int Parts = 20;
    private const int CurvedParts = 8;

    // How long before the start of a pulse its foot is looked for, for a scale of 1 [s].
    private const double BeforeStartSeconds = 0.12;
    private const double Tolerance = 1e-9;

    /// <summary>Finds the landmarks of the upstroke of a pulse whose start is given.</summary>
    /// <param name="sum">The earlier beats and the own components, at their start.</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="foot">Receives what was found.</param>
    /// <returns>Whether there is a minimum before a steepest point.</returns>
    public static bool TryFind(PulseSum sum, in PulseContour contour, double scale, ref PulseFoot foot)
    {
        double start = sum.OwnStartSeconds;
        double middle = contour.SteepestGuess * scale;
        double reach = 0.45 * middle;
        double steepest = PulseRoot.Between(sum, 2, 1, middle - reach, middle + reach);
        sum.At3(steepest, out PulsePoint steep);
        foot.StartSeconds = start;
        foot.Steepest = steepest;
        if (!(steep.Slope > 0 && steep.Jerk < 0 && Math.Abs(steep.Curvature) < 1e-6 * Math.Abs(steep.Jerk)) || !TryMinimum(sum, scale, steepest, out foot.Minimum))
        {
            return false;
        }

        sum.At3(foot.Minimum, out PulsePoint low);
        foot.Low = low.Value;
        foot.TangentSeconds = start + steepest + ((low.Value - steep.Value) / steep.Slope);
        return true;
    }

    /// <summary>Shifts a pulse until its foot by tangents lies where wanted, and finds the landmarks of its upstroke.</summary>
    /// <param name="sum">The earlier beats; receives the own components.</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="height">Height of the forward wave.</param>
    /// <param name="footSeconds">Where the foot by tangents shall be [s].</param>
    /// <param name="foot">Holds a guess of the start; receives what was found.</param>
    public static bool TryPlace(PulseSum sum, in PulseContour contour, double scale, double height, double footSeconds, ref PulseFoot foot)
    {
        // The foot follows the start almost one to one; where it does not, the line through the last two tries says how far to go.
        double start = foot.StartSeconds;
        double lastStart = 0;
        double lastMiss = double.NaN;
        for (int i = 0; i < Rounds; i++)
        {
            sum.SetOwn(contour.Lay(start, scale, height));
            if (!TryFind(sum, contour, scale, ref foot))
            {
                return false;
            }

            double miss = footSeconds - foot.TangentSeconds;
            if (Math.Abs(miss) < Tolerance)
            {
                return foot.IsInOrder;
            }

            double step = miss * (start - lastStart) / (lastMiss - miss);
            bool isLikely = step * miss > 0 && Math.Abs(step) < 5 * Math.Abs(miss);
            lastStart = start;
            lastMiss = miss;
            start += isLikely ? step : miss;
        }

        return false;
    }

    /// <summary>The landmarks after the foot: largest second derivative, systolic peak, notch and diastolic peak.</summary>
    /// <param name="sum">The earlier beats and the own components, at their start.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="foot">Holds minimum and steepest point; receives what was found.</param>
    /// <returns>Whether there is a systolic peak and a largest second derivative.</returns>
    public static bool TryRest(PulseSum sum, double scale, ref PulseFoot foot)
    {
        // The first place after the steepest point where the wave no longer rises.
        double late = foot.Steepest + (0.3 * scale);
        double step = 0.01 * scale;
        double peak = foot.Steepest;
        PulsePoint at;
        do
        {
            peak += step;
            sum.At3(peak, out at);
        }
        while (at.Slope > 0 && peak < late);
        foot.Peak = PulseRoot.Between(sum, 1, 1, peak - step, peak);
        sum.At3(foot.Peak, out at);
        foot.High = at.Value;
        if (at.Curvature >= 0 || foot.Peak >= late || !TryCurved(sum, foot.Steepest, out foot.Curved))
        {
            return false;
        }

        PulseTail.Find(sum, scale, ref foot);
        return true;
    }

    // There may be more than one hump of the second derivative: a coarse look finds the largest, a root of the third refines it.
    private static bool TryCurved(PulseSum sum, double steepest, out double curved)
    {
        double step = steepest / CurvedParts;
        double largest = double.MinValue;
        int best = 0;
        for (int i = 0; i <= CurvedParts; i++)
        {
            sum.At3(i * step, out PulsePoint at);
            if (at.Curvature > largest)
            {
                largest = at.Curvature;
                best = i;
            }
        }

        curved = best * step;
        if (best == 0 || best == CurvedParts)
        {
            return false;
        }

        curved = PulseRoot.Between(sum, 3, 1, curved - step, curved + step);
        return true;
    }

    // The last minimum before the steepest point; where the pulse begins soon after the notch of the one before, that is the notch. With
    // nothing left of earlier pulses the wave never falls: its start is the foot then.
    private static bool TryMinimum(PulseSum sum, double scale, double steepest, out double minimum)
    {
        minimum = 0;
        if (sum.IsAlone)
        {
            return true;
        }

        double high = steepest;
        double step = (steepest + (BeforeStartSeconds * scale)) / Parts;
        for (int i = 1; i <= Parts; i++)
        {
            double offset = steepest - (i * step);
            sum.At3(offset, out PulsePoint at);
            if (at.Slope < 0)
            {
                minimum = PulseRoot.Between(sum, 1, -1, offset, high);
                return true;
            }

            high = offset;
        }

        return false;
    }
}
