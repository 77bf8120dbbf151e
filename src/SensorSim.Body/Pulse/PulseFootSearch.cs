// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Start, minimum and steepest point of any pulse: brackets and halvings, slower and safe.</summary>
internal static class PulseFootSearch
{
    private const int Rounds = 100;
    private const int Parts = 20;

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

        sum.At3(start, foot.Minimum, out PulsePoint earlier, out PulsePoint low);
        foot.Value = low.Value;
        foot.EarlierCurvature = earlier.Curvature;
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
