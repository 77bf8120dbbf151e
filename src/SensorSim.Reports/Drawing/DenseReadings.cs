// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Drawing;

/// <summary>Chooses which of very many readings to draw.</summary>
internal static class DenseReadings
{
    private const int AllUpTo = 2000;

    /// <summary>Indices of the readings to draw, ascending.</summary>
    /// <remarks>
    /// All that are numbers, while they are few. Of more, the lowest and the highest in each pixel column: a day's file stays small
    /// and no outlier gets lost.
    /// </remarks>
    internal static List<int> Shown(double[] values, Func<int, int> columnOf)
    {
        List<int> shown = [];
        int column = int.MinValue;
        int lowest = -1;
        int highest = -1;
        for (int i = 0; i < values.Length; i++)
        {
            if (!double.IsFinite(values[i]))
            {
                continue;
            }

            if (values.Length <= AllUpTo)
            {
                shown.Add(i);
                continue;
            }

            if (columnOf(i) != column)
            {
                Add(shown, lowest, highest);
                column = columnOf(i);
                lowest = i;
                highest = i;
            }

            lowest = values[i] < values[lowest] ? i : lowest;
            highest = values[i] > values[highest] ? i : highest;
        }

        Add(shown, lowest, highest);
        return shown;
    }

    private static void Add(List<int> shown, int lowest, int highest)
    {
        if (lowest < 0)
        {
            return;
        }

        shown.Add(Math.Min(lowest, highest));
        if (lowest != highest)
        {
            shown.Add(Math.Max(lowest, highest));
        }
    }
}
