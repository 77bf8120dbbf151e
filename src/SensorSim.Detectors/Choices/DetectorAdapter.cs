// SPDX-License-Identifier: MIT
namespace SensorSim.Detectors.Choices;

/// <summary>What stands behind the detector contract.</summary>
public enum DetectorAdapter
{
    /// <summary>The project's own fixed-point library.</summary>
    Library,

    /// <summary>A class of a .NET assembly.</summary>
    Assembly,

    /// <summary>A C shared library.</summary>
    CLibrary,

    /// <summary>A program that speaks the link protocol over its standard input and output.</summary>
    Process,

    /// <summary>A board that speaks the link protocol over a port.</summary>
    Board,
}
