// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.Candidates;

/// <summary>The next one of rare samples, looked for far ahead, so that a stretch without any costs a comparison.</summary>
/// <remarks>Forward only. Which samples they are depends neither on cuts nor on how far is looked. Copied by value.</remarks>
/// <param name="samples">Where they come from.</param>
internal struct ComingSamples(RareSamples samples)
{
    private const int Ahead = 4096;
    private RareSamples _samples = samples;

    // Up to here there is none, but perhaps here.
    private long _place;
    private bool _isOne;
    private uint _spare;

    /// <summary>The first of them in a range of samples.</summary>
    /// <param name="from">First sample of the range; never before an earlier call's.</param>
    /// <param name="until">First sample after the range.</param>
    /// <param name="spare">Receives a random word that belongs to the sample.</param>
    /// <returns>Its index, or <paramref name="until"/> when there is none.</returns>
    public long Next(long from, long until, out uint spare)
    {
        while (_place < until)
        {
            if (_isOne && _place >= from)
            {
                spare = _spare;
                return _place;
            }

            long begin = Math.Max(from, _isOne ? _place + 1 : _place);
            _place = _samples.Next(begin, begin + Ahead, out _spare);
            _isOne = _place < begin + Ahead;
        }

        spare = 0;
        return until;
    }
}
