// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Lines;

/// <summary>Closes what may refuse to be closed, without waiting for ever.</summary>
internal static class SlowClose
{
    /// <summary>Closes on a thread of its own and waits for it up to a limit; a closing that takes longer goes on in the background.</summary>
    /// <param name="inUse">Held while something is written, so that nothing is closed under a writer.</param>
    /// <param name="close">Closes.</param>
    /// <param name="limit">Longest wait.</param>
    /// <returns>Whether it is closed.</returns>
    public static bool Run(object inUse, Action close, TimeSpan limit)
    {
        var thread = new Thread(() =>
        {
            lock (inUse)
            {
                try
                {
                    close();
                }
                catch (Exception e) when (e is IOException or InvalidOperationException or UnauthorizedAccessException)
                {
                    // Its other end is gone: closed is what it is.
                }
            }
        })
        {
            IsBackground = true,
            Name = "link close",
        };
        thread.Start();
        return thread.Join(limit);
    }
}
