// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Studies.Agreement;

/// <summary>A reading and its true value, for a picture.</summary>
/// <param name="Run">Number of the run.</param>
/// <param name="Index">Number of the pair in its run, from 0.</param>
/// <param name="Subject">Index of the person.</param>
/// <param name="Truth">True value in the kind's unit.</param>
/// <param name="Estimate">The reading in the kind's unit.</param>
public readonly record struct ReadingPair(long Run, long Index, int Subject, double Truth, double Estimate);

/// <summary>All pairs of a person, as sums.</summary>
/// <param name="Subject">Index of the person.</param>
/// <param name="Sums">Its pairs.</param>
public sealed record SubjectPairs(int Subject, PairSums Sums);
