// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Studies.Results;

/// <summary>Counts with their words: <c>1 run</c>, <c>2 runs</c>.</summary>
public static class Plural
{
    /// <summary>A count and what is counted.</summary>
    /// <param name="count">How many.</param>
    /// <param name="one">The word for one; several have an s.</param>
    public static string Of(long count, string one) => string.Create(CultureInfo.InvariantCulture, $"{count} {one}{(count == 1 ? "" : "s")}");
}
