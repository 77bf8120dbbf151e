// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Running;
using SensorSim.Benchmarks.Chain;

// `chain` times the whole chain beside the script of the baseline, `once` only runs it, for tools that watch from outside;
// everything else goes to the benchmarks of the stages.
if (args is ["chain", .. string[] rest])
{
    return ChainProgram.Run(rest);
}

if (args is ["once", .. string[] what])
{
    return OnceProgram.Run(what);
}

BenchmarkSwitcher.FromAssembly(typeof(ChainProgram).Assembly).Run(args);
return 0;
