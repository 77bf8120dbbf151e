// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detectors.Probing;

/// <summary>Headroom of every intermediate value of a run: how much of each declared word the signal used.</summary>
public sealed class StageAudit
{
    private static readonly StageFormat[] s_formats = [.. Enum.GetValues<ProbePoint>().Select(StageFormat.Of)];
    private readonly StageRecord[] _records = new StageRecord[s_formats.Length];

    /// <summary>The points that were seen, in the order of the flow.</summary>
    public IEnumerable<StageRow> Rows => Enum.GetValues<ProbePoint>()
        .Where(p => _records[(int)p].Count > 0)
        .Select(p => new StageRow(p, s_formats[(int)p], _records[(int)p]));

    /// <summary>Takes a value.</summary>
    /// <param name="point">Where it was made.</param>
    /// <param name="value">The value.</param>
    public void See(ProbePoint point, int value) => _records[(int)point].Add(value, s_formats[(int)point]);

    /// <summary>Takes a rounding.</summary>
    /// <param name="point">What came out of it.</param>
    /// <param name="before">Exact value in units of 2^−bits steps.</param>
    /// <param name="after">What came out.</param>
    /// <param name="bits">Bits dropped; with 0 there was no rounding.</param>
    public void Round(ProbePoint point, int before, int after, int bits)
    {
        if (bits > 0)
        {
            _records[(int)point].AddRounding(before, after, bits);
        }
    }
}

/// <summary>One row of the audit.</summary>
/// <param name="Point">Where.</param>
/// <param name="Format">What the stage declares.</param>
/// <param name="Record">What was seen.</param>
public readonly record struct StageRow(ProbePoint Point, StageFormat Format, StageRecord Record);
