// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Hands what is written to one stream on, and keeps it.</summary>
internal sealed class TeeStream(Stream inner) : ForwardStream
{
    private readonly MemoryStream _kept = new();

    /// <summary>Everything written, from its begin on.</summary>
    public Stream Kept => new MemoryStream(_kept.GetBuffer(), 0, (int)_kept.Length, writable: false);

    /// <inheritdoc/>
    protected override void Take(ReadOnlySpan<byte> bytes)
    {
        inner.Write(bytes);
        _kept.Write(bytes);
    }

    /// <inheritdoc/>
    protected override void Finish() => inner.Dispose();
}
