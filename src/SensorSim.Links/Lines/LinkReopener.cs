// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Links.Lines;

/// <summary>Opens a link again after it was lost: tries until the other end is back or the time is over.</summary>
/// <remarks>A USB board may come back under another name; a port given by its stable name (<c>/dev/serial/by-id/…</c>) is found again.</remarks>
public sealed class LinkReopener
{
    private static readonly TimeSpan BetweenTries = TimeSpan.FromMilliseconds(100);

    private readonly Func<ILink> _open;

    /// <summary>Creates a reopener.</summary>
    /// <param name="open">Opens the link, or throws <see cref="LinkUnavailableException"/>.</param>
    public LinkReopener(Func<ILink> open)
    {
        ArgumentNullException.ThrowIfNull(open);
        _open = open;
    }

    /// <summary>Why the last try failed; null when it did not.</summary>
    public LinkUnavailableException? LastTrouble { get; private set; }

    /// <summary>Tries to open the link. The lost one must have been disposed of, or the port counts as in use.</summary>
    /// <param name="atMost">How long to try; once at least.</param>
    /// <param name="cancellation">Ends the waiting.</param>
    /// <returns>The open link; null when it did not come back in that time.</returns>
    public ILink? Reopen(TimeSpan atMost, CancellationToken cancellation = default)
    {
        long begin = Stopwatch.GetTimestamp();
        while (true)
        {
            try
            {
                ILink link = _open();
                LastTrouble = null;
                return link;
            }
            catch (LinkUnavailableException e)
            {
                LastTrouble = e;
            }

            if (Stopwatch.GetElapsedTime(begin) + BetweenTries > atMost || cancellation.WaitHandle.WaitOne(BetweenTries))
            {
                return null;
            }
        }
    }
}
