// SPDX-License-Identifier: MIT
using SensorSim.Benchmarks.Chain;

return args switch
{
    ["once", .. string[] what] => OnceProgram.Run(what),
    ["detect", .. string[] what] => DetectProgram.Run(what),
    _ => throw new ArgumentException("once or detect"),
};
