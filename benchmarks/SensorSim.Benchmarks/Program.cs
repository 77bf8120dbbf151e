// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Running;
using SensorSim.Benchmarks.Chain;

// `chain` times the whole chain beside the script of the baseline; everything else goes to the benchmarks of the stages.
if (args is ["chain", .. string[] rest])
{
    return ChainProgram.Run(rest);
}

BenchmarkSwitcher.FromAssembly(typeof(ChainProgram).Assembly).Run(args);
return 0;
