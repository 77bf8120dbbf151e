// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>A room's light as both slots of a sensor see it.</summary>
/// <param name="Name">What it is.</param>
/// <param name="LightHz">Rate of the lit slot [Hz].</param>
/// <param name="DarkHz">Rate of the dark slot [Hz].</param>
/// <param name="Shift256">Where in the dark interval the lit slot lies [1/256].</param>
internal sealed record RoomScene(string Name, int LightHz, int DarkHz, int Shift256)
{
    /// <summary>White noise of either slot [codes rms].</summary>
    public double NoiseCodes { get; init; } = 50;

    /// <summary>A flicker as it folds: its size [codes].</summary>
    public double FlickerCodes { get; init; }

    /// <summary>Its frequency [Hz].</summary>
    public double FlickerHz { get; init; }

    /// <summary>Sun and shade by turns, this large [codes], each five seconds.</summary>
    public double ShadeCodes { get; init; }

    /// <summary>The scenes of the study.</summary>
    public static RoomScene[] All { get; } =
    [
        new("steady", 100, 100, 13),
        new("sun and shade", 100, 100, 13) { ShadeCodes = 80_000 },
        new("flicker folded to 5 Hz", 100, 100, 13) { FlickerCodes = 2000, FlickerHz = 5 },
        new("the same, dark after lit", 100, 100, 200) { FlickerCodes = 2000, FlickerHz = 5 },
        new("the same, one dark of three", 300, 100, 13) { FlickerCodes = 2000, FlickerHz = 5 },
        new("the same, one dark of four", 400, 100, 13) { FlickerCodes = 2000, FlickerHz = 5 },
        new("flicker of the noise's size", 100, 100, 13) { FlickerCodes = 95, FlickerHz = 5 },
        new("steady", 2000, 2000, 13),
    ];

    /// <summary>Makes the record, slot by slot: dark or not, and the code.</summary>
    public IEnumerable<(bool IsDark, int Code)> Make(double durationS, int seed)
    {
        var random = new Random(seed);
        int ratio = LightHz / DarkHz;
        double shift = Shift256 / 256.0;
        for (int i = 0; i < (int)(durationS * LightHz); i++)
        {
            // From a half on the dark slot of the same tick lies after the lit one.
            double t = (double)i / LightHz;
            if (i % ratio == 0)
            {
                yield return (true, (int)Math.Round(Room(t) + (NoiseCodes * SyntheticEcg.Normal(random))));
            }

            double lit = t + ((shift < 0.5 ? shift : shift - 1) / DarkHz);
            yield return (false, (int)Math.Round(200_000 + (1000 * Math.Sin(7 * t)) + Room(lit) + (NoiseCodes * SyntheticEcg.Normal(random))));
        }
    }

    private double Room(double t) =>
        100_000 + (FlickerCodes * Math.Sin(2 * Math.PI * FlickerHz * t)) + (Math.Floor(t / 5) % 2 == 0 ? 0 : ShadeCodes);
}
