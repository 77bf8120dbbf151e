// SPDX-License-Identifier: MIT
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>Where rows are kept as they come; asked by one thread only.</summary>
public interface IRunLog
{
    /// <summary>The row of a run; null when it was not made yet.</summary>
    /// <param name="run">Number of the run.</param>
    RunRow? Find(long run);

    /// <summary>Keeps a row.</summary>
    /// <param name="row">Of a run that is not there yet.</param>
    /// <exception cref="IOException">It cannot be kept.</exception>
    void Add(RunRow row);

    /// <summary>Called several times a second while runs are made.</summary>
    /// <exception cref="IOException">What was added cannot be kept.</exception>
    void Tick();
}
