// SPDX-License-Identifier: MIT
namespace SensorSim.Grading.Running;

/// <summary>Runs independent pieces of work on a few threads; results stand in the order of the work, whoever was first.</summary>
internal sealed class Workers
{
    private readonly int _count;

    public Workers(int count) => _count = count;

    /// <summary>Does the work for each item.</summary>
    /// <param name="items">The items.</param>
    /// <param name="work">The work on one; shares nothing with the others.</param>
    public T[] ForEach<TItem, T>(IEnumerable<TItem> items, Func<TItem, T> work)
    {
        TItem[] list = [.. items];
        var results = new T[list.Length];
        Parallel.For(0, list.Length, new ParallelOptions { MaxDegreeOfParallelism = _count }, i => results[i] = work(list[i]));
        return results;
    }
}
