// SPDX-License-Identifier: MIT
using SensorSim.Body.Rendering;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Body.Pulse;

/// <summary>Draws the arterial pulse on a grid of samples: no exponential in the loop. No cut changes a bit.</summary>
/// <remarks>A grid is read either by <see cref="Add"/> or by <see cref="Fill"/>: both move on.</remarks>
public sealed class PulseGrid
{
    // Blocks of Fill: long against what is asked for at once, short against the events that a body holds.
    private const double BlockSeconds = 2.56;
    private const int MostSamples = 1024;

    private readonly ActiveWaves<ActivePulseWave> _waves;
    private readonly double _level;
    private readonly double[] _block;
    private int _left;

    /// <summary>Creates a renderer.</summary>
    /// <param name="body">Where the beats come from.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="channel">Light that is drawn: red, infrared or green.</param>
    /// <param name="level">What <see cref="Fill"/> has the pulse stand on [absorbance].</param>
    public PulseGrid(BodyModel body, SampleGrid grid, ChannelName channel, double level = 0)
    {
        _waves = new ActiveWaves<ActivePulseWave>(body, grid, channel - ChannelName.Red);
        _level = level;

        // Whole groups of eight: a wave that a block cuts inside a group takes longer.
        _block = new double[(int)Math.Max(8, Math.Min(MostSamples, Math.Floor(BlockSeconds / grid.StepSeconds))) & -8];
    }

    private PulseGrid(PulseGrid other, BodyModel body)
    {
        _waves = other._waves.Copy(body);
        _level = other._level;
        _block = [.. other._block];
        _left = other._left;
    }

    /// <summary>Adds the pulse [absorbance, natural logarithm] to samples; reads forward only.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">The sample after the last one of the call before.</param>
    public void Add(Span<double> buffer, long firstIndex) => _waves.Add(buffer, firstIndex);

    /// <summary>Sets samples to the level and the pulse on it: the bits of <see cref="Add"/> to samples that hold the level.</summary>
    /// <remarks>Drawn ahead in long blocks: less work where few samples are asked for at once.</remarks>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">The sample after the last one of the call before.</param>
    public void Fill(Span<double> buffer, long firstIndex)
    {
        while (buffer.Length > 0)
        {
            if (_left == 0)
            {
                // Ends at a multiple of the block's length wherever it begins.
                _left = _block.Length - (int)(firstIndex % _block.Length);
                Span<double> all = _block.AsSpan(_block.Length - _left);
                all.Fill(_level);
                _waves.Add(all, firstIndex);
            }

            int count = Math.Min(_left, buffer.Length);
            _block.AsSpan(_block.Length - _left, count).CopyTo(buffer);
            _left -= count;
            firstIndex += count;
            buffer = buffer[count..];
        }
    }

    /// <summary>An independent copy with the same state, fed by a copy of the body.</summary>
    /// <param name="body">The copy of the body.</param>
    public PulseGrid Copy(BodyModel body) => new(this, body);
}
