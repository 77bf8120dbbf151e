// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.Signals.Randomness;

/// <summary>The pinned 64-bit number that stands for the name of a source of randomness.</summary>
public static class SourceName
{
    /// <summary>FNV-1a, 64 bits, over the UTF-8 bytes of the name.</summary>
    /// <param name="name">Name such as <c>ecg.white_noise</c>; each source of the project has its own.</param>
    /// <remarks>Source: Fowler, Noll, Vo; IETF draft-eastlake-fnv (offset basis and prime).</remarks>
    public static ulong Hash(string name)
    {
        ulong hash = 0xCBF29CE484222325;
        foreach (byte octet in Encoding.UTF8.GetBytes(name))
        {
            hash = unchecked((hash ^ octet) * 0x00000100000001B3);
        }

        return hash;
    }
}
