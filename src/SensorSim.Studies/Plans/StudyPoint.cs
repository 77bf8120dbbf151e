// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Plans;

/// <summary>One combination of values of everything that a study varies.</summary>
/// <param name="Index">Its place in the study, from 0.</param>
/// <param name="Values">One value for each <see cref="Factor"/>, in their order; a <see cref="double"/> or a <see cref="string"/>.</param>
public sealed record StudyPoint(int Index, IReadOnlyList<object> Values);
