// SPDX-License-Identifier: MIT
using System.Security.Cryptography;

namespace SensorSim.Files.VectorSets;

/// <summary>Counts and hashes what is written, and hands it on.</summary>
public sealed class HashedStream : ForwardStream
{
    private readonly Stream _inner;
    private readonly Action<long, string> _closed;
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    /// <summary>Wraps a stream.</summary>
    /// <param name="inner">Takes the bytes; closed with this one.</param>
    /// <param name="closed">Told, at the end, how many bytes there were and their SHA-256 in 64 lower-case hexadecimal digits.</param>
    public HashedStream(Stream inner, Action<long, string> closed)
    {
        ArgumentNullException.ThrowIfNull(inner);
        ArgumentNullException.ThrowIfNull(closed);
        _inner = inner;
        _closed = closed;
    }

    /// <inheritdoc/>
    public override void Flush() => _inner.Flush();

    /// <inheritdoc/>
    protected override void Take(ReadOnlySpan<byte> bytes)
    {
        _hash.AppendData(bytes);
        _inner.Write(bytes);
    }

    /// <inheritdoc/>
    protected override void Finish()
    {
        string sum = Convert.ToHexStringLower(_hash.GetHashAndReset());
        _hash.Dispose();
        _inner.Dispose();
        _closed(Length, sum);
    }
}
