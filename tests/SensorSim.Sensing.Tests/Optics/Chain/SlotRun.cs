// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics.Chain;

/// <summary>One slot made by itself, with settings that change at given samples.</summary>
internal sealed class SlotRun
{
    public double[] Analog { get; private init; } = [];

    public int[] Codes { get; private init; } = [];

    public ushort[] Status { get; private init; } = [];

    public static ChannelSettings Start { get; } = new(10, 100, 1, 1);

    /// <summary>Makes samples of a slot.</summary>
    /// <param name="values">Values of knobs.</param>
    /// <param name="name">The slot.</param>
    /// <param name="samples">How many.</param>
    /// <param name="changes">First sample that shows it, and the settings; ascending.</param>
    /// <param name="block">Samples made at once; the changes cut too.</param>
    /// <param name="copyAt">Sample at which a copy of the source goes on; none if negative.</param>
    public static SlotRun Of(
        KeyValues values, ChannelName name, int samples, (int At, ChannelSettings Settings)[] changes, int block = 100, int copyAt = -1)
    {
        var body = new BodyModel(values, 7);
        var mains = MainsSupply.Create(values, 7);
        ChannelSource source = name == ChannelName.Dark
            ? new DarkSource(values, 7, mains)
            : new LightSource(values, 7, body, mains, name);
        double step = 1 / values[OpticsKeys.RateHz];
        var run = new SlotRun { Analog = new double[samples], Codes = new int[samples], Status = new ushort[samples] };
        for (int done = 0; done < samples;)
        {
            foreach ((_, ChannelSettings settings) in changes.Where(c => c.At == done))
            {
                source.ChangeSettings(settings, done * step);
            }

            if (done == copyAt)
            {
                body = body.Copy();
                source = source.Copy(body);
            }

            int end = changes.Select(c => c.At).Append(copyAt).Append(done + block).Append(samples).Where(a => a > done).Min();
            source.Fill(run.Analog.AsSpan(done..end), run.Codes.AsSpan(done..end), run.Status.AsSpan(done..end), done);
            done = end;
        }

        return run;
    }
}
