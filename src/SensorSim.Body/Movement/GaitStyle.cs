// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Movement;

/// <summary>Walking or running: its shape, how far it holds and how large it is.</summary>
internal sealed class GaitStyle(GaitShape shape, ChoiceWeight weight, LiveSize amplitude)
{
    /// <summary>How long a change of the activity takes [s].</summary>
    public const double ChangeSeconds = 1.5;

    /// <summary>The shape.</summary>
    public GaitShape Shape => shape;

    /// <summary>Vertical amplitude before the first change [g].</summary>
    public double BaseAmplitudeG => amplitude.BaseValue;

    /// <summary>Whether there is never anything of it.</summary>
    public bool IsOff => weight.IsOff || amplitude.IsOff;

    /// <summary>Weight times amplitude at a time [g].</summary>
    public double SizeG(double seconds) => weight.At(seconds) * amplitude.At(seconds);

    /// <summary>Whether nothing of it can occur in a stretch.</summary>
    public bool IsSilent(double beginSeconds, double endSeconds) =>
        IsOff || (weight.IsConstant(beginSeconds, endSeconds, out double w) && w == 0);

    /// <summary>Fills weight times amplitude for every sample of a block [g].</summary>
    public void FillSizes(MovementBlock block, Span<double> sizes)
    {
        amplitude.Fill(block, sizes);
        if (weight.IsConstant(block.BeginSeconds, block.EndSeconds, out double w))
        {
            if (w != 1)
            {
                foreach (ref double size in sizes)
                {
                    size *= w;
                }
            }

            return;
        }

        for (int i = 0; i < sizes.Length; i++)
        {
            sizes[i] *= weight.At(block.Seconds(i));
        }
    }
}
