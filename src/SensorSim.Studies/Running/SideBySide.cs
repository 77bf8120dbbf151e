// SPDX-License-Identifier: MIT
using System.Runtime.ExceptionServices;

namespace SensorSim.Studies.Running;

/// <summary>Does things that know nothing of each other on all cores, or on as many as <see cref="Within"/> says.</summary>
public static class SideBySide
{
    // Goes with the parts, and theirs, to whichever thread they are done on.
    private static readonly AsyncLocal<TaskScheduler?> s_cores = new();

    /// <summary>Does something on this thread whose parts, with the parts of parts, are never more than so many at a time.</summary>
    /// <param name="cores">At most so many parts at a time, at least 1. One that waits for parts of its own does one of them meanwhile.</param>
    /// <param name="make">What is done. It is no part itself: this thread does nothing while it waits for parts.</param>
    public static TResult Within<TResult>(int cores, Func<TResult> make)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(cores, 1);
        ArgumentNullException.ThrowIfNull(make);
        TaskScheduler? before = s_cores.Value;
        s_cores.Value = new ConcurrentExclusiveSchedulerPair(TaskScheduler.Default, cores).ConcurrentScheduler;
        try
        {
            return make();
        }
        finally
        {
            s_cores.Value = before;
        }
    }

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
        TaskScheduler scheduler = s_cores.Value ?? TaskScheduler.Default;

        // Hidden, so that what a part does by itself without waiting does not come back to a scheduler whose threads may all be waiting for it.
        const TaskCreationOptions Options = TaskCreationOptions.DenyChildAttach | TaskCreationOptions.HideScheduler;
        Task[] tasks = [.. parts.Select(p => Task.Factory.StartNew(p, cancellation, Options, scheduler))];
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
