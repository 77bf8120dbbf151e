// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What fixed point cost reference and canceller on one record.</summary>
/// <param name="Functions">The twelve functions [1/16384 g].</param>
/// <param name="OtherPowers">Powers of two of the steps: share that is another than the twin's [%].</param>
/// <param name="Output">Light without the artefact, after 30 s, when both take it off all the time [codes].</param>
/// <param name="Weight">The first weight, in steps of 2^−20 codes for 1/16384 g.</param>
/// <param name="OtherUse">Samples at which one of both takes something off and the other does not [%].</param>
/// <param name="FixedDb">How far the artefact was taken down after 30 s by the stage [dB].</param>
/// <param name="TwinDb">By the twin [dB].</param>
internal readonly record struct MovementCosts(
    StageCost Functions, double OtherPowers, StageCost Output, StageCost Weight, double OtherUse, double FixedDb, double TwinDb)
{
    /// <summary>Own gait, an artefact that comes from it by a way that the canceller does not know, and a pulse beside it.</summary>
    /// <param name="way">The way, as the tests of the canceller name it.</param>
    /// <param name="lightHz">Rate of the light [Hz].</param>
    /// <param name="accelHz">Rate of the accelerometer [Hz].</param>
    /// <param name="size">Size of the light: 1 has an artefact of some 3000 codes rms.</param>
    public static MovementCosts Of(string way, int lightHz, int accelHz, double size)
    {
        (int[] light, int[] pulse, int[][] codes) = MovementRecord.Make(way, lightHz, accelHz, 90, size);
        var reference = default(MovementReference);
        var canceller = default(Canceller);
        reference.Start(accelHz, MovementRecord.CodesPerG);
        canceller.Start(lightHz, accelHz);
        var referenceTwin = new MovementReferenceTwin(accelHz, MovementRecord.CodesPerG);
        var twin = new CancellerTwin(lightHz, accelHz);
        var probe = default(WeightProbe);
        var functions = new Pairs();
        var output = new Pairs();
        var weights = new Pairs();
        int powers = 0;
        int uses = 0;
        int next = 0;
        for (int i = 0; i < light.Length; i++)
        {
            for (; next < codes.Length && (long)next * lightHz < (long)i * accelHz; next++)
            {
                reference.Next(codes[next][0], codes[next][1], codes[next][2]);
                referenceTwin.Next(codes[next][0], codes[next][1], codes[next][2]);
                for (int k = 0; k < Word12.Length; k++)
                {
                    functions.Add(reference.Values[k], referenceTwin.Functions[k]);
                }

                powers += Enumerable.Range(0, 3).Count(a => reference.PowerBits(a) != referenceTwin.PowerBits[a]);
            }

            output.Add(canceller.Next(light[i], reference, ref probe), twin.Next(light[i], referenceTwin));
            weights.Add(probe.Weight, Math.ScaleB(twin.Weights[0], NormalisedStep.WeightBits));
            uses += canceller.Estimate != 0 != (twin.Estimate != 0) ? 1 : 0;
        }

        int from = 30 * lightHz;
        return new MovementCosts(
            functions.Cost(),
            100.0 * powers / (3 * next),
            output.Cost(from),
            weights.Cost(),
            100.0 * uses / light.Length,
            MovementRecord.Attenuation(light, pulse, output.Fixed, from),
            MovementRecord.Attenuation(light, pulse, output.Twin, from));
    }

    private sealed class Pairs
    {
        public List<double> Fixed { get; } = [];

        public List<double> Twin { get; } = [];

        public void Add(double ours, double theirs)
        {
            Fixed.Add(ours);
            Twin.Add(theirs);
        }

        public StageCost Cost(int from = 0) => StageCost.Of([.. Fixed.Skip(from)], [.. Twin.Skip(from)]);
    }

    private struct WeightProbe : IProbe
    {
        public int Weight;

        public void See(ProbePoint point, int value) => Weight = point == ProbePoint.CancellerWeight ? value : Weight;
    }
}
