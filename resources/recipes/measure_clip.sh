#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# measure_clip.sh CLIP OUT: one clip from file to readings without a hand, into the folder OUT/NAME.
#
# Beside NAME.mp4 stands NAME.SCENE.json. Where NAME.MARKS.csv and NAME.CONTACTS.csv stand there too
# these are measured; else landmarks and contacts are proposed, and the readings are unconfirmed.
# Ends with the exit code of the word that failed, 0 for none, and leaves it in OUT/NAME/exit_code,
# written last: a clip whose job was killed has none. What is done and no older than its files is
# not done again. LATEMILE_BATCH names the program where it is not on the search path.
set -uo pipefail
[ $# -eq 2 ] || { echo "measure_clip.sh CLIP OUT" >&2; exit 2; }

clip=$1
beside=${clip%.*}
out=$2/${clip##*/}
program=${LATEMILE_BATCH:-latemile-batch}

is_done() {
    local file
    [ "$(cat "$out/exit_code" 2>/dev/null)" = 0 ] || return 1
    for file in "$clip" "$beside".{SCENE.json,MARKS.csv,CONTACTS.csv}; do
        [ ! "$file" -nt "$out/exit_code" ] || return 1
    done
}

work() {
    local marks=$beside.MARKS.csv contacts=$beside.CONTACTS.csv scene=$beside.SCENE.json how=()
    local inspection
    inspection=$("$program" inspect "$clip" --json) || return
    printf '%s\n' "$inspection" >"$out/INSPECTION.json" || return
    if [ ! -e "$marks" ] || [ ! -e "$contacts" ]; then
        marks=$out/MARKS.csv contacts=$out/CONTACTS.csv how=(--unconfirmed)
        "$program" propose "$clip" --scene "$scene" --out "$marks" || return
        "$program" contacts "$clip" --marks "$marks" --scene "$scene" --out "$contacts" || return
    fi
    "$program" measure "$clip" --marks "$marks" --contacts "$contacts" --scene "$scene" \
        --out "$out/READINGS.csv" ${how[@]+"${how[@]}"}
}

is_done && exit 0
mkdir -p "$out" && rm -f "$out"/{exit_code,READINGS.csv} || exit 1
work >"$out/answers.txt" 2>"$out/errors.txt"
code=$?
[ "$code" -eq 0 ] || printf '%s: %s\n' "${clip##*/}" "$(tail -n 1 "$out/errors.txt")" >&2
printf '%s\n' "$code" >"$out/exit_code" || exit 1
exit "$code"
