// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests.Assemblies;

/// <summary>Detectors that the tests load from this very assembly, as a user's own.</summary>
public abstract class SampleDetector : IDetector
{
    public virtual string Name => "sample 1.0";

    public void Start(StreamFormat format)
    {
    }

    public void Process(SampleBlock block, DetectorOutput output)
    {
    }

    public void Flush(DetectorOutput output)
    {
    }

    public virtual void Dispose() => GC.SuppressFinalize(this);
}

public sealed class PlainDetector : SampleDetector;

public sealed class ThrowingDetector : SampleDetector
{
    public ThrowingDetector() => throw new InvalidOperationException("no\nlicence");
}

public sealed class NeedyDetector(int number) : SampleDetector
{
    public override string Name => $"needy {number}";
}

public sealed class MisnamedDetector : SampleDetector, IDetectorConstants
{
    public IReadOnlyList<NumberKey> Constants { get; } =
        [new NumberKey { Name = "speed", Meaning = "", Source = "", Minimum = 0, Maximum = 1, Default = 0 }];

    public void SetConstant(string name, double value)
    {
    }
}

public sealed class NamelessDetector : SampleDetector
{
    public override string Name => "";
}

public sealed class MuteDetector : SampleDetector
{
    public override string Name => throw new NotImplementedException("later");
}

public sealed class StubbornDetector : SampleDetector, IDetectorConstants
{
    public IReadOnlyList<NumberKey> Constants { get; } =
        [new NumberKey { Name = "detector.speed", Meaning = "", Source = "", Minimum = 0, Maximum = 1, Default = 0 }];

    public void SetConstant(string name, double value) => throw new InvalidOperationException("never");
}

public sealed class WedgedDetector : SampleDetector
{
    public override string Name => "wedged\u001b[31m 1.0";

    public override void Dispose()
    {
        base.Dispose();
        throw new InvalidOperationException("still\nin\u001buse");
    }
}
