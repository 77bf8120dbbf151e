# SPDX-License-Identifier: MIT
# Sourced by all.sh and nightly.sh: builds once, runs test projects as the executables that they are, counts.

passed=0
failed=0
skipped=0
logs=$(mktemp -d)
trap 'rm -rf "$logs"' EXIT

# Longest that one project may take; beyond it counts as crashed.
limit_s=${TEST_LIMIT_S:-1200}

seconds_since() {
    awk -v from="$1" -v to="$(date +%s.%N)" 'BEGIN { printf "%.1f", to - from }'
}

# phase NAME COMMAND...: runs quietly; prints the seconds, and the whole output only when it failed.
phase() {
    local name=$1 log="$logs/phase" from status=0
    shift
    from=$(date +%s.%N)
    "$@" > "$log" 2>&1 < /dev/null || status=$?
    printf '%-36s %8s s  %s\n' "$name" "$(seconds_since "$from")" "$([ "$status" = 0 ] && echo ok || echo "failed (exit code $status)")"
    if [ "$status" != 0 ]; then
        cat "$log"
        failed=$((failed + 1))
    fi

    return "$status"
}

# One warm compiler for all projects, under a name of this script's own, so that it can be ended with the script and nobody else's is met.
# No colours, for the output goes to a file.
compiler=sensorsim-tests-$$

build() {
    local status=0
    phase "build" dotnet build SensorSim.sln -c Release --nologo -v quiet -p:UseSharedCompilation=true "-p:SharedCompilationId=$compiler" -nodeReuse:false --tl:off || status=$?
    pkill -f "VBCSCompiler.* -pipename:$compiler" > /dev/null 2>&1 || true
    return "$status"
}

# figure NAME LOG: a number of the runner's summary, the last one if there are several; empty if there is none.
figure() {
    sed -nE "s/^ +$1: +([0-9]+) *\$/\\1/p" "$2" | tail -n 1
}

# execute_project NAME FILTER: runs the tests of a project that the filter selects; leaves the runner's words, its exit code and the seconds in $logs.
execute_project() {
    local name=$1 filter=$2 log="$logs/$1" program="artifacts/bin/$1/release/$1" from status=0
    local guard=()
    command -v timeout > /dev/null 2>&1 && guard=(timeout --kill-after=10 "$limit_s")
    from=$(date +%s.%N)
    if [ -x "$program" ]; then
        ${guard[@]+"${guard[@]}"} "$program" --filter "$filter" --no-ansi --progress off --output "${test_output:-Normal}" \
            > "$log" 2>&1 < /dev/null || status=$?
    else
        echo "$program was not built" > "$log"
        status=127
    fi

    echo "$status $(seconds_since "$from")" > "$log.end"
}

# report_project NAME: adds what execute_project left to the sums and prints it. Returns 8 when no test was selected.
report_project() {
    local name=$1 log="$logs/$1" status seconds p f s note=""
    read -r status seconds < "$log.end"
    p=$(figure succeeded "$log")
    f=$(figure failed "$log")
    s=$(figure skipped "$log")
    if [ "$status" = 8 ] && [ "${none_is_fine:-no}" = yes ]; then
        return 8
    fi

    # Exit codes of Microsoft.Testing.Platform: 0 all passed, 2 some failed, 8 no test ran. A crash may leave no summary, or a good one.
    if [ -z "$p" ] || [ -z "$f" ] || [ -z "$s" ]; then
        p=${p:-0} f=1 s=${s:-0} note=" (no summary, exit code $status)"
    elif [ "$status" = 8 ] || [ $((p + f + s)) = 0 ]; then
        f=1 note=" (no test ran)"
    elif [ "$status" != 0 ] && [ "$f" = 0 ]; then
        f=1 note=" (exit code $status)"
    fi

    passed=$((passed + p)) failed=$((failed + f)) skipped=$((skipped + s))
    printf '%-36s %8s s  %s passed, %s failed%s%s\n' "$name" "$seconds" "$p" "$f" "$([ "$s" = 0 ] || echo ", $s skipped")" "$note"
    if [ "$f" != 0 ]; then
        cat "$log"
        return 1
    fi
}

# run_project NAME FILTER: the two together.
run_project() {
    execute_project "$1" "$2"
    report_project "$1"
}

# run_projects FILTER "TIMED..." "OTHER...": two at a time, which no test minds: each has folders and ports of its own. The timed ones, which wait for
# deadlines of links and boards, go one after the other with the rest behind them in priority, so that a full machine never looks to them like a slow board.
run_projects() {
    local filter=$1 timed=$2 name
    shift 2
    (for name in $timed; do execute_project "$name" "$filter"; done) &
    for name in $1; do
        while [ "$(jobs -pr | wc -l)" -ge 2 ]; do
            wait -n || true
        done
        (renice -n 10 -p "$BASHPID" > /dev/null 2>&1; execute_project "$name" "$filter") &
    done
    wait
    for name in $timed $1; do
        report_project "$name"
    done
}

test_projects() {
    local folder
    for folder in tests/*.Tests; do
        basename "$folder"
    done
}

# first "NAME...": every test project, these before the others.
first() {
    local project
    for project in $1; do echo "$project"; done
    for project in $(test_projects); do
        case " $1 " in *" $project "*) ;; *) echo "$project" ;; esac
    done
}

# The last line and the exit code of a test script.
finish() {
    echo "$passed passed, $failed failed$([ "$skipped" = 0 ] || echo ", $skipped skipped")"
    [ "$failed" = 0 ]
    exit
}
