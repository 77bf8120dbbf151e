// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using NUnit.Framework.Interfaces;
using NUnit.Framework.Internal;

namespace SensorSim.Tests.Shared;

/// <summary>These tests hold lanes to the plain way beside them: without AVX2 there is only the plain way, and they are left out.</summary>
[AttributeUsage(AttributeTargets.Class)]
internal sealed class NeedsLanesAttribute : NUnitAttribute, IApplyToTest
{
    /// <inheritdoc/>
    public void ApplyToTest(Test test)
    {
        if (!Avx2.IsSupported && test.RunState == RunState.Runnable)
        {
            test.RunState = RunState.Ignored;
            test.Properties.Set(PropertyNames.SkipReason, "This processor has no AVX2: the plain way is the only one.");
        }
    }
}
