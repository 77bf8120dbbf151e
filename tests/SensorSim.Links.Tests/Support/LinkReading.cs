// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Links.Tests.Support;

/// <summary>Reads from links in tests.</summary>
internal static class LinkReading
{
    /// <summary>Reads until the buffer is full.</summary>
    public static byte[] ReadAll(this ILink link, int count, double withinS = 20)
    {
        byte[] bytes = new byte[count];
        int have = 0;
        long begin = Stopwatch.GetTimestamp();
        while (have < count)
        {
            Assert.That(Stopwatch.GetElapsedTime(begin).TotalSeconds, Is.LessThan(withinS), $"only {have} of {count} bytes came from {link.Name}");
            have += link.Read(bytes.AsSpan(have), TimeSpan.FromMilliseconds(100));
        }

        return bytes;
    }

    /// <summary>Reads until the link is lost; fails when it is not.</summary>
    public static LinkLostException ReadUntilLost(this ILink link, double withinS)
    {
        byte[] bytes = new byte[4096];
        long begin = Stopwatch.GetTimestamp();
        while (Stopwatch.GetElapsedTime(begin).TotalSeconds < withinS)
        {
            try
            {
                link.Read(bytes, TimeSpan.FromMilliseconds(50));
            }
            catch (LinkLostException e)
            {
                return e;
            }
        }

        throw new AssertionException($"{link.Name} was not noticed as lost within {withinS} s");
    }
}
