#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The long tests: category Slow of every test project, the numpy/scipy baseline, independent readers, and the figures of the detector. The results go to docs/nightly-results.md,
# which is committed: it names each long test with its last result.
# Usage, from any folder: bash tests/nightly.sh
# Ends with the line "N passed, N failed"; exit code 1 if anything failed.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/.." || exit 1
. tests/install.sh
. tests/run.sh

# Hours, not minutes, for one project.
limit_s=${TEST_LIMIT_S:-14400}
results=docs/nightly-results.md
rows="$logs/rows"
today=$(date -u +%Y-%m-%d)
: > "$rows"

# keep_rows PROJECT: one row per test from the runner's own lines, "passed Name (1s 20ms)".
keep_rows() {
    sed -E 's/\|/\\|/g' "$logs/$1" | sed -nE "s/^(passed|failed|skipped) (.+) \\(([0-9a-z ]+)\\)\$/| $1: \\2 | $today | \\1, \\3 |/p" >> "$rows"
}

run_baseline() {
    local log="$logs/baseline" from
    from=$(date +%s.%N)
    if need_module numpy python3-numpy && need_module scipy python3-scipy \
        && /usr/bin/python3 benchmarks/baseline/baseline.py --seconds 600 --repeats 5 > "$log" 2>&1; then
        passed=$((passed + 1))
        printf '%-36s %8s s  %s\n' "baseline" "$(seconds_since "$from")" "$(cat "$log")"
        echo "| benchmarks/baseline/baseline.py --seconds 600 --repeats 5 | $today | \`$(tail -n 1 "$log")\` |" >> "$rows"
    else
        failed=$((failed + 1))
        printf '%-36s %8s s  %s\n' "baseline" "$(seconds_since "$from")" "failed"
        cat "$log" 2> /dev/null
        echo "| benchmarks/baseline/baseline.py --seconds 600 --repeats 5 | $today | failed |" >> "$rows"
    fi
}

# Wanted variability of four hours of true beats, by scipy.
run_variability() {
    local log="$logs/variability" from work
    from=$(date +%s.%N)
    work=$(mktemp -d)
    sed 's/^duration_s = .*/duration_s = 14400/' waveforms/scenarios/rhythms/sinus-normal.toml > "$work/long.toml"
    if need_module numpy python3-numpy && need_module scipy python3-scipy \
        && artifacts/bin/SensorSim.Cli/release/sensorsim run "$work/long.toml" --out "$work/out" > "$log" 2>&1 \
        && /usr/bin/python3 tests/outside/hrv.py "$work/out/truth.csv" 50 42 1.5 > "$log" 2>&1; then
        passed=$((passed + 1))
        printf '%-36s %8s s  %s\n' "variability by scipy" "$(seconds_since "$from")" "$(cat "$log")"
        echo "| tests/outside/hrv.py: wanted SDNN 50, RMSSD 42 ms, LF/HF 1.5 | $today | $(tail -n 1 "$log") |" >> "$rows"
    else
        failed=$((failed + 1))
        printf '%-36s %8s s  %s\n' "variability by scipy" "$(seconds_since "$from")" "failed"
        cat "$log" 2> /dev/null
        echo "| tests/outside/hrv.py: wanted SDNN 50, RMSSD 42 ms, LF/HF 1.5 | $today | failed |" >> "$rows"
    fi

    rm -rf "$work"
}

# The published figures of the detector; before them the program that measures is checked with truth in the place of a detector.
run_grading() {
    local log="$logs/grading" program=artifacts/bin/SensorSim.Grading/release/SensorSim.Grading from
    from=$(date +%s.%N)
    if "$program" --self-check --quick > "$log" 2>&1 && "$program" --out docs/detection-figures.md > "$log" 2>&1; then
        passed=$((passed + 1))
        printf '%-36s %8s s  %s\n' "figures of the detector" "$(seconds_since "$from")" "$(tail -n 1 "$log")"
        echo "| tests/SensorSim.Grading: figures in docs/detection-figures.md | $today | $(grep ' reported only' docs/detection-figures.md) |" >> "$rows"
    else
        failed=$((failed + 1))
        printf '%-36s %8s s  %s\n' "figures of the detector" "$(seconds_since "$from")" "failed"
        cat "$log" 2> /dev/null
        echo "| tests/SensorSim.Grading | $today | failed |" >> "$rows"
    fi
}

# The link's codec in C on ten million frames of a bad wire, under the sanitizers.
run_link_fuzz() {
    local log="$logs/link-fuzz" from work seed
    from=$(date +%s.%N)
    work=$(mktemp -d)
    seed=$(date +%s)
    if gcc -std=c99 -O1 -g -Wall -Wextra -Werror -Wconversion -pedantic -fsanitize=address,undefined -fno-sanitize-recover=all -I src/firmware/link \
            tests/firmware/fuzz_link.c src/firmware/link/sensorsim_*.c -o "$work/fuzz" > "$log" 2>&1 \
        && "$work/fuzz" 10000000 "$seed" > "$log" 2>&1; then
        passed=$((passed + 1))
        printf '%-36s %8s s  %s\n' "link codec in C" "$(seconds_since "$from")" "$(cat "$log")"
        echo "| tests/firmware/fuzz_link.c | $today | $(tail -n 1 "$log") |" >> "$rows"
    else
        failed=$((failed + 1))
        printf '%-36s %8s s  %s\n' "link codec in C" "$(seconds_since "$from")" "failed with seed $seed"
        cat "$log" 2> /dev/null
        echo "| tests/firmware/fuzz_link.c, seed $seed | $today | failed |" >> "$rows"
    fi

    rm -rf "$work"
}

# Recordings written here as heavier independent readers see them, and theirs read here.
run_readers() {
    local log="$logs/readers" from
    from=$(date +%s.%N)
    if need_module mne python3-mne && need save2gdf biosig-tools && bash tests/outside/edf-readers.sh > "$log" 2>&1; then
        passed=$((passed + 1))
        printf '%-36s %8s s  %s\n' "independent readers" "$(seconds_since "$from")" "$(tail -n 1 "$log")"
        echo "| tests/outside/edf-readers.sh | $today | $(tail -n 1 "$log") |" >> "$rows"
    else
        failed=$((failed + 1))
        printf '%-36s %8s s  %s\n' "independent readers" "$(seconds_since "$from")" "failed"
        cat "$log" 2> /dev/null
        echo "| tests/outside/edf-readers.sh | $today | failed |" >> "$rows"
    fi
}

test_output=Detailed
none_is_fine=yes
if ! need_dotnet || ! need_all || ! need_sanitizers || ! build; then
    # The results of last time stay.
    [ "$failed" != 0 ] || failed=1
    finish
fi

for project in $(test_projects); do
    run_project "$project" "TestCategory=Slow"
    [ $? = 8 ] || keep_rows "$project"
done

run_baseline
run_variability
run_link_fuzz
run_readers
run_grading
mkdir -p docs
{
    echo "# Long tests and their last results"
    echo
    echo "Written by \`bash tests/nightly.sh\`; times depend on the machine."
    echo
    echo "| test | date | result |"
    echo "| --- | --- | --- |"
    cat "$rows"
} > "$results"
finish
