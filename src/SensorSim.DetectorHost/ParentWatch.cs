// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.DetectorHost;

/// <summary>Ends this process when its parent is gone, even while a library hangs: nobody would be left to do it.</summary>
internal sealed class ParentWatch : IDisposable
{
    private static readonly TimeSpan s_every = TimeSpan.FromSeconds(2);

    private readonly Timer _timer;

    public ParentWatch(int parentId) => _timer = new Timer(_ => Look(parentId), null, s_every, s_every);

    public void Dispose() => _timer.Dispose();

    private static void Look(int parentId)
    {
        try
        {
            using var parent = Process.GetProcessById(parentId);
        }
        catch (ArgumentException)
        {
            // Not by Environment.Exit: that would wait for the thread that hangs.
            using var own = Process.GetCurrentProcess();
            own.Kill();
        }
    }
}
