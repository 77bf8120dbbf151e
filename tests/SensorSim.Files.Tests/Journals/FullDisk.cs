// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Tests.Journals;

/// <summary>A file in memory on a disk with little room: a write that does not fit writes what fits and fails.</summary>
internal sealed class FullDisk : MemoryStream
{
    /// <summary>Bytes that fit in all.</summary>
    public long Room { get; set; } = long.MaxValue;

    /// <summary>Whether even cutting the file fails.</summary>
    public bool IsStuck { get; set; }

    public override void Write(byte[] buffer, int offset, int count)
    {
        int fits = (int)Math.Clamp(Room - Position, 0, count);
        base.Write(buffer, offset, fits);
        if (fits < count)
        {
            throw new IOException("No space left on device");
        }
    }

    public override void SetLength(long value)
    {
        if (IsStuck)
        {
            throw new IOException("Input/output error");
        }

        base.SetLength(value);
    }
}
