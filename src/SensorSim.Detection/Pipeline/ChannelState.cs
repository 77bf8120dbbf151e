// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pipeline;

/// <summary>Follows the samples of one channel: which index comes next, and what was unusable since the gates last looked.</summary>
internal struct ChannelState
{
    // What samples have to have in common to be alike.
    private const ushort Compared = SampleFlags.Unusable | (0xFF << SampleFlags.SettingsShift);

    /// <summary>Ticks from one sample to the next; 0: there is no such channel.</summary>
    public int Step;

    /// <summary>Index that follows the last usable sample; −1 before the first.</summary>
    public long Expected;

    /// <summary>Flags of unusable samples since the gates last looked.</summary>
    public ushort Flags;

    /// <summary>Samples since the gates last looked, usable or not.</summary>
    public int Count;

    /// <summary>Whether the latest sample was usable.</summary>
    public bool IsUsable;

    /// <summary>Whether any sample was usable since the gates last looked.</summary>
    public bool HasUsable;

    /// <summary>Number of the settings, as the last usable sample had it.</summary>
    public ushort Settings;

    public ChannelState(int ticksPerSample)
    {
        Step = ticksPerSample;
        Expected = -1;
    }

    /// <summary>How many of the next samples are alike: usable or not for the same reason, under the same settings.</summary>
    /// <param name="status">Status words, at least one.</param>
    public int CountAlike(ReadOnlySpan<ushort> status)
    {
        ushort first = (ushort)(status[0] & Compared);
        int count = 1;
        while (count < status.Length && (status[count] & Compared) == first)
        {
            count++;
        }

        Count += count;
        Flags |= (ushort)(first & SampleFlags.Unusable);
        IsUsable = (first & SampleFlags.Unusable) == 0;
        HasUsable |= IsUsable;
        return count;
    }

    /// <summary>Takes over the settings of a usable sample.</summary>
    /// <param name="status">Its status word.</param>
    /// <returns>Whether they changed since the last usable sample.</returns>
    public bool TakeSettings(ushort status)
    {
        ushort settings = (ushort)(status >> SampleFlags.SettingsShift);
        bool isChange = Expected >= 0 && settings != Settings;
        Settings = settings;
        return isChange;
    }

    /// <summary>The gates have looked.</summary>
    public void Looked()
    {
        Flags = 0;
        Count = 0;
        HasUsable = false;
    }
}
