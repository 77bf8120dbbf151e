// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Plain;

/// <summary>A plain textbook detector of R peaks, for comparison only: band-pass, square, moving mean, a threshold that follows.</summary>
/// <remarks>
/// Band-pass of 5 to 15 Hz (here Butterworth of second order on each side), square, mean of 150 ms and 200 ms of refractory time: Pan and
/// Tompkins, IEEE Trans Biomed Eng 32:230-236, 1985. The threshold is a fixed fraction, 0.3125, of a median of highest values: fraction and
/// median after Hamilton and Tompkins, IEEE Trans Biomed Eng 33:1157-1165, 1986 (all from memory). The median is that of the last five blocks of
/// two seconds, so that nothing ever locks the threshold. No slope stage, no search back, no rule for T waves, no noise level.
/// </remarks>
internal sealed class PlainDetector : IDetector
{
    private const double Fraction = 0.3125;
    private const int BlockSeconds = 2;

    private readonly double[] _highest = new double[5];
    private int _channel;
    private int _rate;
    private long _ticks;
    private Biquad _high;
    private Biquad _low;
    private double[] _bandPassed = [];
    private double[] _squares = [];
    private long _delay;
    private double _sum;
    private long _count;
    private double _first;
    private double _blockHighest;
    private int _blocks;
    private double _threshold;
    private double _peak;
    private long _peakAt;
    private long _lastBeat;

    /// <inheritdoc/>
    public string Name => "plain band-pass and threshold";

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        _channel = format.IndexOf(ChannelName.Ecg);
        _rate = format.Channels[_channel].RateHz;
        _ticks = format.TicksPerSample(_channel);
        _bandPassed = new double[_rate / 2];
        _squares = new double[_rate * 15 / 100];
        _high = Biquad.HighPass(5, _rate);
        _low = Biquad.LowPass(15, _rate);

        // Delay of the filter for a QRS: the middle of the energy of its impulse response.
        Biquad high = _high;
        Biquad low = _low;
        double energy = 0;
        double moment = 0;
        for (int i = 0; i < _rate; i++)
        {
            double h = low.Next(high.Next(i == 0 ? 1 : 0));
            energy += h * h;
            moment += i * h * h;
        }

        _delay = (long)Math.Round(moment / energy);
        _lastBeat = -_rate;
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ChannelBlock samples = block.Channels[_channel];
        foreach (SampleRun run in samples.Runs)
        {
            for (int i = 0; i < run.Count; i++)
            {
                Take(samples.Codes[run.Offset + i], run.FirstIndex + i, output);
            }
        }
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output)
    {
        // A peak that is not over yet is no beat.
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // Nothing to let go of.
    }

    private void Take(int code, long index, DetectorOutput output)
    {
        if (_count == 0)
        {
            _first = code;
        }

        double y = _low.Next(_high.Next(code - _first));
        _bandPassed[index % _bandPassed.Length] = y;
        int slot = (int)(index % _squares.Length);
        _sum = Math.Max(0, _sum + (y * y) - _squares[slot]);
        _squares[slot] = y * y;
        double mean = _sum / _squares.Length;
        _blockHighest = Math.Max(_blockHighest, mean);
        if (++_count % (BlockSeconds * _rate) == 0)
        {
            _highest[_blocks++ % _highest.Length] = _blockHighest;
            _blockHighest = 0;
            double[] known = [.. _highest.Take(Math.Min(_blocks, _highest.Length)).Order()];
            _threshold = Fraction * known[known.Length / 2];
        }

        // A hump above the threshold is a beat once it is over; of two within the refractory time the first counts.
        if (_blocks > 0 && mean > Math.Max(_threshold, _peak))
        {
            _peak = mean;
            _peakAt = index;
        }
        else if (_peak > 0 && mean < Math.Min(_threshold, _peak / 2))
        {
            _peak = 0;
            if (_peakAt - _lastBeat >= _rate / 5)
            {
                _lastBeat = _peakAt;
                Give(output, index);
            }
        }
    }

    private void Give(DetectorOutput output, long index)
    {
        // The largest swing among what the mean had in it at its peak.
        long at = _peakAt;
        for (long i = Math.Max(0, _peakAt - _squares.Length); i <= _peakAt; i++)
        {
            if (index - i < _bandPassed.Length && Math.Abs(_bandPassed[i % _bandPassed.Length]) > Math.Abs(_bandPassed[at % _bandPassed.Length]))
            {
                at = i;
            }
        }

        output.Marks.Add(new Mark
        {
            Channel = _channel,
            Kind = MarkKind.RPeak,
            Sample = Math.Max(0, at - _delay),
            EmittedTick = (index + 1) * _ticks,
        });
    }
}
