// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pipeline;

/// <summary>Follows the samples of one channel: which index comes next, and what was unusable since the gates last looked.</summary>
internal struct ChannelState
{
    /// <summary>Ticks from one sample to the next.</summary>
    public int Step;

    /// <summary>Index that follows the last usable sample; −1 before the first.</summary>
    public long Expected;

    /// <summary>Flags of unusable samples since the gates last looked.</summary>
    public ushort Flags;

    /// <summary>Usable samples since the gates last looked.</summary>
    public int Usable;

    public ChannelState(int ticksPerSample)
    {
        Step = ticksPerSample;
        Expected = -1;
    }

    /// <summary>Index of the first sample at or after a tick.</summary>
    public readonly long IndexAt(long tick) => Step == 0 ? 0 : (tick + Step - 1) / Step;

    /// <summary>How many of the next samples are alike: all usable, or all not.</summary>
    /// <param name="status">Status words, at least one.</param>
    /// <param name="isUsable">Which of both.</param>
    public int CountAlike(ReadOnlySpan<ushort> status, out bool isUsable)
    {
        // Most often no word has a flag.
        isUsable = (status[0] & SampleFlags.Unusable) == 0;
        int count = 0;
        while (count < status.Length && (status[count] & SampleFlags.Unusable) == 0 == isUsable)
        {
            if (!isUsable)
            {
                Flags |= (ushort)(status[count] & SampleFlags.Unusable);
            }

            count++;
        }

        Usable += isUsable ? count : 0;
        return count;
    }
}
