// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

// Samples that can bring no decision go through the stages as a run: what changes with every sample is kept at hand instead of being stored
// between any two. What comes out is the same.
public partial struct BeatDetector
{
    private const int MostInRun = 64;

    /// <summary>How many of the next samples are a run; 0 where the next one needs a look of its own.</summary>
    private readonly int CountRun(int codes, ReadOnlySpan<ushort> status)
    {
        if (_windows.Decimation > 1 || _isFresh || _skip > 0 || _gaps.IsOpen || !_spikes.IsIdle)
        {
            return 0;
        }

        // No block of the learning ends inside, no hump, and the judge does nothing by itself.
        int most = codes < MostInRun ? codes : MostInRun;
        int inBlock = _learning.RoomForRun(_windows.LearningBlock);
        most = inBlock < most ? inBlock : most;
        most = _peaks.RoomForRun < most ? _peaks.RoomForRun : most;
        long quiet = _judge.QuietUntil(_windows) - _now;
        most = quiet < most ? (int)quiet : most;
        int count = 0;
        while (count < most && (count >= status.Length || (status[count] & SampleFlags.PacingSpike) == 0))
        {
            count++;
        }

        return count;
    }

    private void Run(ReadOnlySpan<int> codes)
    {
        NoProbe probe = default;
        BandSums band = _bandPass.Sums;
        EnergySum sum = _energy.Sum;
        BeatLearning learning = _learning;
        PeakFinder peaks = _peaks;
        int at = (int)_now & (Word256.Length - 1);
        for (int i = 0; i < codes.Length; i++)
        {
            int clean = _spikes.Delayed(codes[i]);
            _ecg[at & (Word256.Length - 1)] = clean;
            at++;
            int energy = _energy.Next(ref sum, _bandPass.Next(ref band, clean, ref probe));
            learning.Watch(energy);
            _ = peaks.Next(energy);
        }

        _bandPass.Sums = band;
        _energy.Sum = sum;
        _learning = learning;
        _peaks = peaks;
        _gaps.Last = codes[codes.Length - 1];
        _next += codes.Length;
        _now += codes.Length;
        _sinceBeat += codes.Length;
    }
}
