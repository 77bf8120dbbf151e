// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What the words of the evidence cost.</summary>
/// <param name="HeightOff">How far a height is off the median [1/64 octave].</param>
/// <param name="OtherHeightsPercent">Share of beats after which another number of heights stands out.</param>
/// <param name="WidestHeight">How far from the bound the nearest height then lies at most [1/64 octave].</param>
/// <param name="OtherIntervalsPercent">The same of intervals.</param>
/// <param name="WidestInterval">How far from the bound the nearest interval then lies at most, share of the median.</param>
internal readonly record struct EvidenceCosts(
    StageCost HeightOff, double OtherHeightsPercent, double WidestHeight, double OtherIntervalsPercent, double WidestInterval);
