// SPDX-License-Identifier: MIT
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>Keeps rows in memory only.</summary>
public sealed class MemoryLog : IRunLog
{
    private readonly Dictionary<long, RunRow> _rows = [];

    /// <inheritdoc/>
    public RunRow? Find(long run) => _rows.GetValueOrDefault(run);

    /// <inheritdoc/>
    public void Add(RunRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        _rows.Add(row.Run, row);
    }

    /// <inheritdoc/>
    public void Tick()
    {
        // Memory has nothing to send anywhere.
    }
}
