// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;

namespace SensorSim.Sensing.Delivery;

/// <summary>Single samples in whose place the one before comes once more, code and status word.</summary>
/// <param name="samples">Which ones.</param>
internal sealed class SampleRepeats(RareSamples samples)
{
    private RareSamples _samples = samples;
    private int _code;
    private ushort _status;
    private bool _hasSample;

    /// <summary>Repeats samples.</summary>
    /// <param name="codes">The codes.</param>
    /// <param name="status">Their status words.</param>
    /// <param name="firstIndex">Index of the first one.</param>
    public void Apply(Span<int> codes, Span<ushort> status, long firstIndex)
    {
        long end = firstIndex + codes.Length;
        for (long at = _samples.Next(firstIndex, end, out _); at < end; at = _samples.Next(at + 1, end, out _))
        {
            int i = (int)(at - firstIndex);
            if (i > 0)
            {
                codes[i] = codes[i - 1];
                status[i] = status[i - 1];
            }
            else if (_hasSample)
            {
                codes[0] = _code;
                status[0] = _status;
            }
        }

        if (codes.Length > 0)
        {
            _code = codes[^1];
            _status = status[^1];
            _hasSample = true;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public SampleRepeats Copy() => (SampleRepeats)MemberwiseClone();
}
