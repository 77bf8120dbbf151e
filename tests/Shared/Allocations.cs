// SPDX-License-Identifier: MIT
namespace SensorSim.Tests.Shared;

/// <summary>Measures what a piece of work allocates.</summary>
internal static class Allocations
{
    private const int Rounds = 4;

    /// <summary>Managed bytes that the calling thread allocates during the work: the least of up to four rounds, none more once it is nothing.</summary>
    /// <remarks>
    /// A method that is compiled for the first time, or anew inside a loop, allocates literals and handles on the thread that runs it. When that
    /// happens depends on how busy the machine is, but it happens once; what the work itself allocates is there in every round.
    /// </remarks>
    /// <param name="work">The work; may be called again.</param>
    public static long Least(Action work)
    {
        long least = long.MaxValue;
        for (int round = 0; round < Rounds && least != 0; round++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            work();
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        return least;
    }
}
