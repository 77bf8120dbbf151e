// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Movement;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>Levels of what a channel's converter does wrong, and an axis of the accelerometer before it.</summary>
internal static class ConversionLevels
{
    /// <summary>Levels of a channel, in the order of the file.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="channel">The channel.</param>
    public static IEnumerable<Level> Of(KeyValues values, ChannelName channel)
    {
        ConversionKeys keys = ConversionKeys.Of(channel);
        if (channel >= ChannelName.AccelX)
        {
            int axis = channel - ChannelName.AccelX;
            yield return Fixed("bandwidth_hz", "Hz", AccelerometerKeys.BandwidthHz);
            yield return Fixed("offset_mg", "mg", AxisErrorKeys.OffsetMg[axis]);
            yield return Fixed("gain_error_percent", "%", AxisErrorKeys.GainErrorPercent[axis]);
            yield return Fixed("turned_x_deg", "deg", AxisErrorKeys.TurnedDeg[0]);
            yield return Fixed("turned_y_deg", "deg", AxisErrorKeys.TurnedDeg[1]);
            yield return Fixed("turned_z_deg", "deg", AxisErrorKeys.TurnedDeg[2]);
        }

        yield return Fixed("converter_offset_codes", "codes", keys.OffsetCodes);
        yield return Fixed("converter_gain_error_percent", "%", keys.GainErrorPercent);
        yield return Fixed("converter_nonlinearity_codes", "codes", keys.NonlinearityCodes);

        // Triangular dither from one code below to one above: variance a sixth.
        yield return new Level("converter_dither_codes_rms", "codes", new Course(values[keys.Dither] == "off" ? 0 : Math.Sqrt(1.0 / 6)));
        yield return Fixed("sampling_jitter_us_rms", "us", keys.JitterUsRms);
        Level stuck = Fixed("stuck_codes_per_h", "1/h", keys.StuckCodesPerH);
        yield return stuck;
        yield return new Level("stuck_codes_s", "s", new Course(values[keys.StuckCodesS]), stuck.Courses[0]);
        yield return Fixed("bit_flips_per_million", "1/million", keys.BitFlipsPerMillion);

        Level Fixed(string item, string unit, NumberKey key) => new(item, unit, new Course(values[key]));
    }
}
