// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>The samples of one channel in one block, in buffers that belong to the caller and are used again.</summary>
/// <remarks>A gap (samples that the sensor never delivered) is a jump of the index from one run to the next.</remarks>
public sealed class ChannelBlock
{
    private const int FirstRuns = 16;
    private readonly int[] _codes;
    private readonly ushort[] _status;
    private SampleRun[] _runs;
    private int _runCount;

    /// <summary>Creates buffers for a number of samples.</summary>
    /// <param name="capacity">Samples that fit, at least 1.</param>
    public ChannelBlock(int capacity)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(capacity, 1);
        _codes = new int[capacity];
        _status = new ushort[capacity];
        _runs = new SampleRun[Math.Min(FirstRuns, (capacity / 2) + 1)];
    }

    /// <summary>Samples that fit.</summary>
    public int Capacity => _codes.Length;

    /// <summary>Samples present.</summary>
    public int Count { get; private set; }

    /// <summary>Codes of the samples present.</summary>
    public ReadOnlySpan<int> Codes => _codes.AsSpan(0, Count);

    /// <summary>Status words (<see cref="SampleStatus"/>) of the samples present.</summary>
    public ReadOnlySpan<ushort> Status => _status.AsSpan(0, Count);

    /// <summary>The runs of consecutive samples, in order; none when the block holds no sample.</summary>
    public ReadOnlySpan<SampleRun> Runs => _runs.AsSpan(0, _runCount);

    /// <summary>Empties the block.</summary>
    public void Clear()
    {
        Count = 0;
        _runCount = 0;
    }

    /// <summary>Makes room for consecutive samples and hands out their codes and status words to be filled in.</summary>
    /// <param name="firstIndex">Sample index of the first one; must lie after every sample present.</param>
    /// <param name="count">How many, at least 1.</param>
    /// <param name="codes">Receives where the codes go; holds old values.</param>
    /// <param name="status">Receives where the status words go; zeroed.</param>
    /// <exception cref="InvalidOperationException">The samples do not fit, or their index is not after the last one.</exception>
    public void Append(long firstIndex, int count, out Span<int> codes, out Span<ushort> status)
    {
        int at = MakeRoom(firstIndex, count);
        codes = _codes.AsSpan(at, count);
        status = _status.AsSpan(at, count);
        status.Clear();
    }

    /// <summary>Takes in consecutive samples.</summary>
    /// <param name="firstIndex">Sample index of the first one; must lie after every sample present.</param>
    /// <param name="codes">Their codes, at least one.</param>
    /// <param name="status">As many status words.</param>
    /// <exception cref="InvalidOperationException">The samples do not fit, or their index is not after the last one.</exception>
    public void Append(long firstIndex, ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(status.Length, codes.Length);
        int at = MakeRoom(firstIndex, codes.Length);
        codes.CopyTo(_codes.AsSpan(at));
        status.CopyTo(_status.AsSpan(at));
    }

    // Room for runs follows the largest number that ever came, in doublings up to a run for every second sample.
    private void GrowRuns()
    {
        int most = (Capacity / 2) + 1;
        if (_runCount < _runs.Length)
        {
            return;
        }

        if (_runCount == most)
        {
            throw new InvalidOperationException($"More than {most} runs in one block; read shorter blocks.");
        }

        Array.Resize(ref _runs, Math.Min(most, 2 * _runs.Length));
    }

    // Where the samples go.
    private int MakeRoom(long firstIndex, int count)
    {
        if (count < 1 || Count + count > Capacity)
        {
            throw new InvalidOperationException($"{count} samples do not fit: {Count} of {Capacity} are in use.");
        }

        long next = _runCount == 0 ? long.MinValue : _runs[_runCount - 1].FirstIndex + _runs[_runCount - 1].Count;
        if (_runCount > 0 && firstIndex < next)
        {
            throw new InvalidOperationException($"Sample {firstIndex} comes after sample {next - 1}; indices must rise.");
        }

        if (_runCount > 0 && firstIndex == next)
        {
            ref SampleRun last = ref _runs[_runCount - 1];
            last = last with { Count = last.Count + count };
        }
        else
        {
            GrowRuns();
            _runs[_runCount++] = new SampleRun(firstIndex, Count, count);
        }

        int at = Count;
        Count += count;
        return at;
    }
}
