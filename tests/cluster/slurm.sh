#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A whole Slurm of one machine, private to one folder: own ports, loopback only, a key made on the spot; as root.
# Usage: bash tests/cluster/slurm.sh start DIR    then: export SLURM_CONF=DIR/slurm.conf
#        bash tests/cluster/slurm.sh stop DIR
set -eu
verb=$1
dir=$(mkdir -p "$2" && cd "$2" && pwd)
host=$(hostname -s)
export SLURM_CONF=$dir/slurm.conf PATH=$PATH:/usr/sbin:/sbin

write_settings() {
    # A task that was killed comes back by RequeueExit; without delays of seconds between scheduling, small tests end soon.
    cat > "$SLURM_CONF" <<CONF
ClusterName=local
SlurmctldHost=$host(127.0.0.1)
SlurmctldPort=16817
SlurmdPort=16818
CommunicationParameters=NoCtldInAddrAny,NoInAddrAny
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
CredType=cred/munge
AuthInfo=socket=$dir/munge/sock
StateSaveLocation=$dir/state
SlurmdSpoolDir=$dir/spool
SlurmctldPidFile=$dir/slurmctld.pid
SlurmdPidFile=$dir/slurmd.pid
SlurmctldLogFile=$dir/log/slurmctld.log
SlurmdLogFile=$dir/log/slurmd.log
MpiDefault=none
SwitchType=switch/none
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
JobCompType=jobcomp/filetxt
JobCompLoc=$dir/log/jobs.txt
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
SchedulerType=sched/backfill
SchedulerParameters=batch_sched_delay=0,sched_interval=1,bf_interval=1,sched_min_interval=0
JobRequeue=1
RequeueExit=137,143
ReturnToService=2
InactiveLimit=0
MinJobAge=3600
KillWait=2
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=main Nodes=$host Default=YES MaxTime=INFINITE State=UP
CONF
}

start() {
    mkdir -p "$dir/munge" "$dir/state" "$dir/spool" "$dir/log"
    chmod 700 "$dir/munge"
    (umask 077 && dd if=/dev/urandom of="$dir/munge/key" bs=1024 count=1 status=none)
    write_settings
    munged --force --socket="$dir/munge/sock" --key-file="$dir/munge/key" --pid-file="$dir/munge/pid" --log-file="$dir/munge/log" --seed-file="$dir/munge/seed"
    slurmctld
    slurmd
    for _ in $(seq 200); do
        [ "$(sinfo -h -o %T 2> /dev/null)" = idle ] && return 0
        sleep 0.1
    done
    echo "the scheduler did not come up; see $dir/log" >&2
    return 1
}

# Only what this folder's pid files name is ended.
stop() {
    local file pid
    for file in "$dir/slurmd.pid" "$dir/slurmctld.pid" "$dir/munge/pid"; do
        [ -s "$file" ] || continue
        pid=$(cat "$file")
        kill "$pid" 2> /dev/null || true
        for _ in $(seq 100); do
            kill -0 "$pid" 2> /dev/null || break
            sleep 0.1
        done
    done
}

"$verb"
