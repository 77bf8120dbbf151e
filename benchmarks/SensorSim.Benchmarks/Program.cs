// SPDX-License-Identifier: MIT
using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Running;
using SensorSim.Benchmarks.Chain;

// `chain` times the whole chain beside the script of the baseline, `once` only runs it, for tools that watch from outside, `make`
// makes a whole scenario, `detect` times the library alone, `own` detectors of users;
// everything else goes to the benchmarks of the stages.
if (args is ["chain", .. string[] rest])
{
    return ChainProgram.Run(rest);
}

if (args is ["once", .. string[] what])
{
    return OnceProgram.Run(what);
}

if (args is ["alone", .. string[] alone])
{
    return AloneProgram.Run(alone);
}

if (args is ["detect", .. string[] detect])
{
    return DetectProgram.Run(detect);
}

if (args is ["own", .. string[] own])
{
    return OwnProgram.Run(own);
}

if (args is ["make", .. string[] scenario])
{
    return MakeProgram.Run(scenario);
}

// The minimum says most on a machine that has other work.
IConfig config = DefaultConfig.Instance.AddColumn(StatisticColumn.Min);
BenchmarkSwitcher.FromAssembly(typeof(ChainProgram).Assembly).Run(args, config);
return 0;
