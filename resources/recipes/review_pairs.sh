#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# review_pairs.sh FOLDER OUT [JOBS]: screens every NAME.fresh.mp4 of a folder against its
# NAME.late.mp4 with NAME.SCENE.json, into OUT/NAME, JOBS pairs at a time (as many as the machine
# has cores). OUT/pairs.tsv tells each pair's time and exit code. Called again it does what failed
# or was not reached. Ends with 0 when all are done.
set -uo pipefail
[ $# -ge 2 ] || { echo "review_pairs.sh FOLDER OUT [JOBS]" >&2; exit 2; }
program=${LATEMILE_BATCH:-latemile-batch}

shopt -s nullglob
pairs=()
for clip in "$1"/*.fresh.mp4; do
    pair=${clip##*/}
    pair=${pair%.fresh.mp4}
    # SCREENING.json is what a review writes last.
    [ -e "$2/$pair/SCREENING.json" ] || pairs+=("$pair")
done
mkdir -p "$2" || exit 1
[ "${#pairs[@]}" -gt 0 ] || exit 0
printf '%s\0' "${pairs[@]}" |
    parallel --quote --null --jobs "${3:-100%}" --joblog "$2/pairs.tsv" "$program" review \
        "$1"/{}.fresh.mp4 "$1"/{}.late.mp4 --scene "$1"/{}.SCENE.json --out "$2"/{} >/dev/null
