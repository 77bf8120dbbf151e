// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Mains;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>Where lines of ambient light fold to in slots that sample without a filter, and what dark subtraction leaves of them.</summary>
public static class AmbientAlias
{
    private const int Multiples = 3;

    /// <summary>Frequency at which samples show a line: |f − round(f / fs) · fs|, at most half the rate.</summary>
    /// <param name="hz">Frequency of the line [Hz], at least 0.</param>
    /// <param name="rateHz">Sampling rate [Hz], above 0.</param>
    /// <remarks>Sampling theorem, textbook.</remarks>
    public static double FoldedHz(double hz, double rateHz) => Math.Abs(hz - (Math.Round(hz / rateHz) * rateHz));

    /// <summary>Share of a line's amplitude that is left when one sample is taken off another: 2 |sin(π f τ)|, 0 to 2.</summary>
    /// <param name="hz">Frequency of the line [Hz].</param>
    /// <param name="apartSeconds">Time between the samples τ [s].</param>
    public static double LeftOfDifference(double hz, double apartSeconds)
    {
        PortableMath.SinCosTurns(0.5 * hz * apartSeconds, out double sin, out _);
        return 2 * Math.Abs(sin);
    }

    /// <summary>Share that is left when the mean of a sample τ before and one τ after is taken off: 2 sin²(π f τ), 0 to 2.</summary>
    /// <param name="hz">Frequency of the line [Hz].</param>
    /// <param name="apartSeconds">Time to either sample τ [s].</param>
    public static double LeftOfMeanOfTwo(double hz, double apartSeconds)
    {
        PortableMath.SinCosTurns(0.5 * hz * apartSeconds, out double sin, out _);
        return 2 * sin * sin;
    }

    /// <summary>Share that a slot keeps which gathers light over a window: |sin(π f T) / (π f T)|.</summary>
    /// <param name="hz">Frequency of the line [Hz], above 0.</param>
    /// <param name="windowSeconds">Integration time T [s], above 0.</param>
    public static double KeptByIntegration(double hz, double windowSeconds)
    {
        double turns = 0.5 * hz * windowSeconds;
        PortableMath.SinCosTurns(turns, out double sin, out _);
        return Math.Abs(sin) / (2 * Math.PI * turns);
    }

    /// <summary>The lines of a scenario's room: flicker at two, four and six times the mains frequency, and the first three of the pulse-width lamp.</summary>
    /// <param name="values">Values of the scenario; knobs that change count with their first value.</param>
    public static IReadOnlyList<AmbientLine> Of(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        double mains = values[MainsKeys.FrequencyHz];
        double level = values[AmbientKeys.LevelNa] + (values[AmbientKeys.LevelLux] * values[AmbientKeys.NaPerLux]);
        double first = level * values[AmbientKeys.FlickerPercent] * 0.01;
        double[] flicker = [first, first * values[AmbientKeys.FlickerSecondPercent] * 0.01, first * values[AmbientKeys.FlickerThirdPercent] * 0.01];
        double lampHz = values[AmbientKeys.PulseWidthHz];
        var lines = new List<AmbientLine>();
        for (int k = 1; k <= Multiples; k++)
        {
            lines.Add(Line(values, AmbientLine.Flicker, k, 2 * k * mains, flicker[k - 1]));
        }

        for (int k = 1; k <= Multiples; k++)
        {
            // Fourier series of a pulse train (textbook): 2 / (π k) · |sin(π k d)|.
            PortableMath.SinCosTurns(0.5 * k * values[AmbientKeys.PulseWidthDutyPercent] * 0.01, out double sin, out _);
            lines.Add(Line(values, AmbientLine.PulseWidthLamp, k, k * lampHz, values[AmbientKeys.PulseWidthLampNa] * 2 / (Math.PI * k) * Math.Abs(sin)));
        }

        return lines;
    }

    private static AmbientLine Line(KeyValues values, string source, int multiple, double hz, double amplitudeNa)
    {
        SampleGrid dark = OpticalSlots.Grid(values, ChannelName.Dark);
        double rate = values[OpticsKeys.RateHz];

        // A clock that runs fast samples closer together, but its samples are taken for those of the nominal rate.
        double speed = 1 / (rate * dark.StepSeconds);
        var left = new List<SlotRemainder>();
        foreach (ChannelName slot in OpticalSlots.Order(values))
        {
            if (slot != ChannelName.Dark)
            {
                double apart = dark.StartSeconds - OpticalSlots.Grid(values, slot).StartSeconds;
                left.Add(new SlotRemainder(slot, apart, LeftOfDifference(hz, apart)));
            }
        }

        return new AmbientLine(
            source,
            multiple,
            hz,
            amplitudeNa * KeptByIntegration(hz, values[OpticsKeys.IntegrationUs] * 1e-6),
            FoldedHz(hz / speed, rate),
            left);
    }
}

/// <summary>One line of ambient light as slots see it.</summary>
/// <param name="Source"><see cref="Flicker"/> or <see cref="PulseWidthLamp"/>.</param>
/// <param name="Multiple">Which harmonic, from 1.</param>
/// <param name="FrequencyHz">Its frequency [Hz].</param>
/// <param name="AmplitudeNa">Its amplitude in a slot, averaged over the integration time [nA].</param>
/// <param name="AliasHz">Where it shows in the samples [Hz].</param>
/// <param name="Left">What is left in each lit slot when the dark slot is taken off.</param>
public sealed record AmbientLine(
    string Source, int Multiple, double FrequencyHz, double AmplitudeNa, double AliasHz, IReadOnlyList<SlotRemainder> Left)
{
    /// <summary>Flicker of mains-fed lamps.</summary>
    public const string Flicker = "flicker";

    /// <summary>The pulse-width lamp.</summary>
    public const string PulseWidthLamp = "pulse_width_lamp";
}

/// <summary>What is left of a line in a lit slot when the dark slot is taken off.</summary>
/// <param name="Slot">The lit slot.</param>
/// <param name="ApartSeconds">Time from it to the dark slot [s].</param>
/// <param name="Share">Share of the amplitude, 0 to 2.</param>
public readonly record struct SlotRemainder(ChannelName Slot, double ApartSeconds, double Share);
