// SPDX-License-Identifier: MIT
using System.Runtime.ExceptionServices;

namespace SensorSim.Studies.Running;

/// <summary>Does things that know nothing of each other on all cores.</summary>
public static class SideBySide
{
    /// <summary>Does the parts; returns when all of them are over.</summary>
    /// <remarks>
    /// Of parts that fail, the first in their order is told, as it was thrown: it does not depend on who was faster. A part may itself do
    /// things side by side.
    /// </remarks>
    /// <param name="cancellation">Keeps parts from beginning; those that have begun must look at it themselves.</param>
    /// <param name="parts">The parts, begun in this order.</param>
    /// <exception cref="OperationCanceledException">It was cancelled before every part was done.</exception>
    public static void Do(CancellationToken cancellation, params IReadOnlyList<Action> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        Task[] tasks = [.. parts.Select(p => Task.Run(p, cancellation))];
        try
        {
            // Without the token: nothing that a part holds may be taken away while it is still at work.
            Task.WaitAll(tasks, CancellationToken.None);
        }
        catch (AggregateException)
        {
            cancellation.ThrowIfCancellationRequested();
            ExceptionDispatchInfo.Throw(tasks.First(t => t.IsFaulted).Exception!.InnerExceptions[0]);
        }
    }

    /// <summary>Makes one thing of each item, in the order of the items.</summary>
    /// <param name="items">The items.</param>
    /// <param name="make">Makes the thing of an item.</param>
    /// <param name="cancellation">As in <see cref="Do"/>.</param>
    public static IReadOnlyList<TResult> Each<TItem, TResult>(IReadOnlyList<TItem> items, Func<TItem, TResult> make, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(items);
        ArgumentNullException.ThrowIfNull(make);
        var made = new TResult[items.Count];
        Do(cancellation, [.. items.Select((item, i) => (Action)(() => made[i] = make(item)))]);
        return made;
    }
}
