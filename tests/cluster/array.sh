#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A study as a job array of a real scheduler: four parts, one of them killed and queued again. The joined result must be that of one machine,
# byte for byte. Needs root, slurmctld, slurmd, slurm-client, munge and the built command. Usage: bash tests/cluster/array.sh
set -eu
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
program=$PWD/artifacts/bin/SensorSim.Cli/release/sensorsim
study=$PWD/tests/cluster/study.toml
work=$(mktemp -d)
export SLURM_CONF=$work/slurm/slurm.conf
finish() {
    bash tests/cluster/slurm.sh stop "$work/slurm" || true
    rm -rf "$work"
}
trap finish EXIT

bash tests/cluster/slurm.sh start "$work/slurm"
"$program" sweep "$study" --out "$work/alone" > /dev/null
read -r parts join < <("$program" sweep submit "$study" --engine slurm --parts 4 --part-seconds 0.1 --out "$work/jobs")
[ "$(grep -c '' < <(ls "$work/jobs"/*.sh))" = 2 ]

# Kill the program of the first part that runs, once it has written something; its script lives on and hands its exit code to the scheduler.
killed=
for _ in $(seq 600); do
    for pid in $(pgrep -f "$work/jobs/part-" || true); do
        part=$(tr '\0' '\n' < "/proc/$pid/cmdline" 2> /dev/null | sed -n "s#^$work/jobs/part-##p" | head -n 1)
        if [ -n "$part" ] && [ "$(readlink "/proc/$pid/exe")" != "$(readlink -f "$(command -v bash)")" ] && [ "$(cat "$work/jobs/part-$part"/* 2> /dev/null | wc -c)" -gt 20000 ]; then
            kill -9 "$pid"
            killed=$part
            break 2
        fi
    done
    sleep 0.02
done
[ -n "$killed" ] || { echo "no part could be killed" >&2; exit 1; }

# A task that was queued again waits two minutes by default: let it start at once.
for _ in $(seq 1200); do
    scontrol update "jobid=${parts}_$killed" StartTime=now > /dev/null 2>&1 || true
    [ -n "$(squeue -h)" ] || break
    sleep 0.1
done
squeue -h | grep . && { echo "jobs are left in the queue" >&2; exit 1; }

restarts=$(scontrol show job "${parts}_$killed" | sed -nE 's/.*Restarts=([0-9]+).*/\1/p')
echo "part $killed was killed and started again $restarts times"
[ "$restarts" -ge 1 ]
if ! diff -r "$work/alone" "$work/jobs/result"; then
    cat "$work/jobs/logs"/*.log
    exit 1
fi
echo "four parts of jobs $parts, joined by job $join, are the study of one machine, byte for byte"
