// SPDX-License-Identifier: MIT
using System.Collections.Concurrent;
using System.Globalization;
using System.Runtime.ExceptionServices;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>Threads that make runs, each with a maker of its own that lives as long as the crew: batches may be small.</summary>
internal sealed class WorkerCrew : IDisposable
{
    private static readonly TimeSpan s_tick = TimeSpan.FromMilliseconds(250);

    private readonly RunMaker[] _makers;

    public WorkerCrew(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories, int workers)
    {
        _makers = new RunMaker[workers];
        for (int i = 0; i < workers; i++)
        {
            _makers[i] = new RunMaker(plan, factories);
        }
    }

    /// <summary>Makes runs; ends when all are made, or throws what the first of them that failed threw.</summary>
    /// <param name="runs">Numbers of the runs, handed out in this order.</param>
    /// <param name="done">Takes a row, on the calling thread.</param>
    /// <param name="tick">Called on the calling thread several times a second.</param>
    /// <param name="cancellation">Ends the making.</param>
    public void Make(IReadOnlyList<long> runs, Action<RunRow> done, Action tick, CancellationToken cancellation)
    {
        if (runs.Count == 0)
        {
            return;
        }

        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using var rows = new BlockingCollection<RunRow>();
        var work = new Work(runs, rows, stop.Token);
        Thread[] threads = [.. _makers.Take(runs.Count).Select((maker, i) => new Thread(() => work.Do(maker))
        {
            Name = string.Create(CultureInfo.InvariantCulture, $"worker {i + 1}"),
            IsBackground = true,
        })];
        work.Begin(threads.Length);
        try
        {
            foreach (Thread thread in threads)
            {
                thread.Start();
            }

            while (!rows.IsCompleted)
            {
                if (rows.TryTake(out RunRow? row, s_tick))
                {
                    done(row);
                }

                tick();
            }
        }
        catch
        {
            stop.Cancel();
            throw;
        }
        finally
        {
            foreach (Thread thread in threads.Where(t => t.ThreadState != ThreadState.Unstarted))
            {
                thread.Join();
            }
        }

        work.ThrowIfFailed();
        cancellation.ThrowIfCancellationRequested();
    }

    public void Dispose()
    {
        foreach (RunMaker maker in _makers)
        {
            maker.Dispose();
        }
    }

    /// <summary>What the threads of one batch share.</summary>
    private sealed class Work(IReadOnlyList<long> runs, BlockingCollection<RunRow> rows, CancellationToken cancellation)
    {
        private readonly Lock _lock = new();
        private int _next = -1;
        private int _working;
        private volatile bool _hasFailed;
        private (int Place, ExceptionDispatchInfo Cause)? _failure;

        public void Begin(int threads) => _working = threads;

        public void Do(RunMaker maker)
        {
            // After a failure no further run is begun, but those before it are finished: which failure is told does not depend on who was faster.
            while (!_hasFailed && !cancellation.IsCancellationRequested && Interlocked.Increment(ref _next) is int place && place < runs.Count)
            {
                try
                {
                    rows.Add(maker.Make(runs[place], cancellation), CancellationToken.None);
                }
                catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
                {
                    break;
                }
#pragma warning disable CA1031 // Whatever it is, it is thrown again on the calling thread.
                catch (Exception e)
#pragma warning restore CA1031
                {
                    Fail(place, e);
                }
            }

            if (Interlocked.Decrement(ref _working) == 0)
            {
                rows.CompleteAdding();
            }
        }

        public void ThrowIfFailed() => _failure?.Cause.Throw();

        private void Fail(int place, Exception cause)
        {
            lock (_lock)
            {
                if (_failure is null || place < _failure.Value.Place)
                {
                    _failure = (place, ExceptionDispatchInfo.Capture(cause));
                }
            }

            _hasFailed = true;
        }
    }
}
