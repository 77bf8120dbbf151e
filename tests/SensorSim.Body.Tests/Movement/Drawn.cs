// SPDX-License-Identifier: MIT
using System.Numerics;
using MathNet.Numerics.IntegralTransforms;
using SensorSim.Body.Movement;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Tests.Movement;

/// <summary>A movement drawn on a grid, and plain measurements on it.</summary>
internal sealed class Drawn
{
    private Drawn(double[] x, double[] y, double[] z, double rateHz)
    {
        X = x;
        Y = y;
        Z = z;
        RateHz = rateHz;
    }

    public double[] X { get; }

    public double[] Y { get; }

    public double[] Z { get; }

    public double RateHz { get; }

    public static Drawn Of(KeyValues values, double seconds, double rateHz = 100, ulong seed = 3, double fromSeconds = 0)
    {
        int count = (int)(seconds * rateHz);
        double[] x = new double[count];
        double[] y = new double[count];
        double[] z = new double[count];
        new MovementGrid(new MovementModel(values, seed), new SampleGrid(fromSeconds, 1 / rateHz)).Add(x, y, z, 0);
        return new Drawn(x, y, z, rateHz);
    }

    /// <summary>Walking that is the same at every stride.</summary>
    public static KeyValues Steady(string activity = "walking") => new KeyValues()
        .Set(MovementKeys.Activity, activity).Set(MovementKeys.CadenceSpreadHz, 0).Set(MovementKeys.StepVariationPercent, 0);

    public static CourseChange Step(double atSeconds, double target) => new(atSeconds, ChangeKind.Step, target, 0);

    public Drawn Less(Drawn other) => new(Less(X, other.X), Less(Y, other.Y), Less(Z, other.Z), RateHz);

    public double[] Axis(int axis) => axis == 0 ? X : axis == 1 ? Y : Z;

    public double[] Magnitude() => [.. X.Select((_, i) => Math.Sqrt((X[i] * X[i]) + (Y[i] * Y[i]) + (Z[i] * Z[i])))];

    /// <summary>Amplitude of a sine line under a Hann window (Harris, Proc IEEE 66:51, 1978), mean removed.</summary>
    public double Line(int axis, double hz)
    {
        double[] a = Axis(axis);
        double mean = a.Average();
        Complex sum = 0;
        double weight = 0;
        for (int i = 0; i < a.Length; i++)
        {
            double w = 0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / a.Length));
            sum += w * (a[i] - mean) * Complex.FromPolarCoordinates(1, -2 * Math.PI * hz * i / RateHz);
            weight += w;
        }

        return 2 * sum.Magnitude / weight;
    }

    /// <summary>Power for each bin k × rate / length, mean removed, Hann window, whole sum the mean square.</summary>
    public static double[] Spectrum(double[] a)
    {
        double mean = a.Average();
        Complex[] data = [.. a.Select((v, i) => new Complex((v - mean) * (1 - Math.Cos(2 * Math.PI * (i + 0.5) / a.Length)), 0))];
        Fourier.Forward(data, FourierOptions.NoScaling);
        double scale = 2 / (1.5 * a.Length * (double)a.Length);
        return [.. data.Take(a.Length / 2).Select(c => scale * ((c.Real * c.Real) + (c.Imaginary * c.Imaginary)))];
    }

    /// <summary>Frequency of the largest bin [Hz].</summary>
    public double PeakHz(int axis)
    {
        double[] power = Spectrum(Axis(axis));
        return Array.IndexOf(power, power.Max()) * RateHz / Axis(axis).Length;
    }

    public static double Rms(double[] a) => Math.Sqrt(a.Average(v => v * v));

    private static double[] Less(double[] a, double[] b) => [.. a.Zip(b, (p, q) => p - q)];
}
