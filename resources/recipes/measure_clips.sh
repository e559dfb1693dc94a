#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# measure_clips.sh FOLDER OUT [JOBS]: measure_clip.sh for every clip of a folder by GNU parallel,
# JOBS at a time (as many as the machine has cores). OUT/jobs.tsv tells each clip's time and exit
# code. Called again it does what failed, changed or was not reached. Ends with 0 when all are done.
set -uo pipefail
[ $# -ge 2 ] || { echo "measure_clips.sh FOLDER OUT [JOBS]" >&2; exit 2; }
recipes=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)

shopt -s nullglob nocaseglob
clips=("$1"/*.{mp4,m4v,mov,mkv,webm,avi})
[ "${#clips[@]}" -gt 0 ] || { echo "There is no clip in $1." >&2; exit 2; }
mkdir -p "$2" || exit 1
# Not by parallel's own --resume: that counts jobs, and a new clip in the folder moves the numbers.
printf '%s\0' "${clips[@]}" |
    parallel --quote --null --jobs "${3:-100%}" --joblog "$2/jobs.tsv" "$recipes/measure_clip.sh" {} "$2"
failed=$(awk -F '\t' 'NR > 1 && ($7 != 0 || $8 != 0)' "$2/jobs.tsv" | wc -l)
reached=$(awk 'NR > 1' "$2/jobs.tsv" | wc -l)
echo "$((reached - failed)) of ${#clips[@]} clips are measured."
[ "$reached" -eq "${#clips[@]}" ] && [ "$failed" -eq 0 ]
