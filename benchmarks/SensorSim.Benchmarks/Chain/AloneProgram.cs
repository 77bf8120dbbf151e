// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Benchmarks.Inputs;
using SensorSim.Sensing;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Making in short slices, and of these the ones in which the core had no other work: what a core takes, also on a machine that is shared.</summary>
/// <remarks>
/// A virtual core is often one of two threads of a real one; what the other does is seen by nobody but the width that is left (<see cref="CoreShare"/>), measured
/// before and after every slice. Times are the processor's for the process. Slices count between two measurements of at least 90 % of the widest tenth.
/// </remarks>
internal static class AloneProgram
{
    private const string Usage = "usage: alone rest|on [SLICES]   (of 512 s of signal each, 300 if not given)";
    private const int SliceSeconds = 512;
    private const int WarmUpSeconds = 8000;
    private const double NearlyAll = 0.9;

    /// <summary>Runs it.</summary>
    /// <param name="arguments">Input and number of slices.</param>
    /// <returns>Exit code: 0 done, 2 wrong arguments.</returns>
    public static int Run(string[] arguments)
    {
        int slices = 300;
        if (arguments is not [("rest" or "on") and string name, .. string[] rest] || rest.Length > 1
            || (rest.Length == 1 && (!int.TryParse(rest[0], NumberStyles.None, CultureInfo.InvariantCulture, out slices) || slices < 20)))
        {
            Console.Error.WriteLine(Usage);
            return 2;
        }

        SensorStream stream = (name == "rest" ? StreamInput.Rest : StreamInput.EverythingOn).CreateStream();
        stream.KeepSettings();
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        Make(stream, block, WarmUpSeconds);
        CoreShare.Measure();
        var widths = new double[slices + 1];
        var times = new double[slices];
        widths[0] = CoreShare.Measure();
        for (int s = 0; s < slices; s++)
        {
            double begin = Spent.Now().Cpu;
            Make(stream, block, SliceSeconds);
            times[s] = (Spent.Now().Cpu - begin) * 1e9 / (SliceSeconds * StreamInput.SamplesPerSecond);
            widths[s + 1] = CoreShare.Measure();
        }

        double whole = At(widths, 0.95);
        double[] alone = [.. times.Where((_, s) => Math.Min(widths[s], widths[s + 1]) >= NearlyAll * whole)];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"width of the core: {whole:F2} additions of eight lanes in a cycle"));
        Tell("all", times);
        Tell("alone", alone);
        return 0;
    }

    private static void Make(SensorStream stream, SampleBlock block, int seconds)
    {
        for (int i = 0; i < seconds; i++)
        {
            stream.Read(block, stream.PositionTick + stream.Format.Clock.TicksPerSecond);
            stream.Truth.Clear();
            stream.Acquisition.Clear();
        }
    }

    private static void Tell(string which, double[] times)
    {
        if (times.Length == 0)
        {
            Console.WriteLine($"{which}: none");
            return;
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{which}: {times.Length} slices; least {times.Min():F1}, a twentieth below {At(times, 0.05):F1}, a quarter {At(times, 0.25):F1}, half {At(times, 0.5):F1} ns a stream sample"));
    }

    private static double At(double[] values, double share)
    {
        double[] sorted = [.. values.Order()];
        return sorted[(int)(share * (sorted.Length - 1))];
    }
}
