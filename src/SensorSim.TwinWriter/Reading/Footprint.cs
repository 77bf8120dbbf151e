// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;

namespace SensorSim.TwinWriter.Reading;

/// <summary>What the computing of an expression reads and changes. C leaves the order of operands open; two of them may change places only when neither changes what the other reads or changes.</summary>
internal sealed class Footprint
{
    /// <summary>Whether it reads fields, or anything else that has an address.</summary>
    public bool ReadsMemory { get; set; }

    /// <summary>Whether it changes fields, or anything else that has an address.</summary>
    public bool WritesMemory { get; set; }

    /// <summary>Plain locals and parameters that it reads.</summary>
    public HashSet<ISymbol> Reads { get; } = new(SymbolEqualityComparer.Default);

    /// <summary>Plain locals and parameters that it changes.</summary>
    public HashSet<ISymbol> Writes { get; } = new(SymbolEqualityComparer.Default);

    /// <summary>Whether it changes anything.</summary>
    public bool HasEffect => WritesMemory || Writes.Count > 0;

    /// <summary>Whether the order of two expressions matters.</summary>
    public bool IsOrdered(Footprint other) =>
        (WritesMemory && (other.ReadsMemory || other.WritesMemory)) || (other.WritesMemory && ReadsMemory)
        || Writes.Overlaps(other.Reads) || Writes.Overlaps(other.Writes) || Reads.Overlaps(other.Writes);
}
