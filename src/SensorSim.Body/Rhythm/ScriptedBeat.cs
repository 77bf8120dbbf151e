// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Rhythm;

/// <summary>One beat of a list.</summary>
/// <param name="Class">Its class.</param>
/// <param name="RrSeconds">Interval up to the next beat [s], above 0.</param>
public readonly record struct ScriptedBeat(BeatClass Class, double RrSeconds);
