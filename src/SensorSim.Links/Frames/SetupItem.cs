// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames;

/// <summary>One thing that the detector of a board is told before the start.</summary>
/// <param name="Item">Number of the item, one of <see cref="SetupItems"/>; 8000 to FFFF (hexadecimal) belong to the detector.</param>
/// <param name="Index">Which one of several, from 0; else 0.</param>
/// <param name="Value">The value in the unit of the item.</param>
public readonly record struct SetupItem(ushort Item, ushort Index, long Value);
