#!/usr/bin/env bash
# Whether two programs give the same bytes: standard output, errors, exit code and written files of every command.
#
#   tests/same.sh OLD NEW [DESIGNS]
#
# OLD and NEW are two `potset` programs (build them with --release). DESIGNS is a folder of designs; this fills one with
# the 300 random designs, the same on each run:
#
#   mkdir designs && POTSET_DESIGNS="$PWD/designs" cargo test --test it random_designs -- --ignored
#
# Make the folder once, before the change, and hand it to every run: the generator uses the code that may have changed.
#
# What is compared:
# - help, --version, wrong input (with faults in a design), every label of tests/data, every entry of the pantry,
#   the evidence as words, as CSV and for every eighth case, and a file of own cases;
# - over all demos: forecast, verdict, beside, matters, pictures (bench: light and dark, two sizes);
# - over all designs: forecast and verdict;
# - over some, since they are slow: many pots, `matters` and `beside` on every third design, a picture of every
#   fifteenth, `aim` on a few demos with few levers, each other view of the window on two demos.
#
# Each run has an empty home and the time zone UTC. Two commands run at a time (JOBS says otherwise). ONLY is a pattern that
# commands must match: ONLY='^verdict ' compares verdicts alone. The window itself is not opened: its pictures stand for it.
# By the times of single commands all of it takes some 14 minutes of one core, so seven on two that are free.
#
# Where something differs, both sides are kept, and the folder is told. Ends with 1 if anything differs, if a command
# stopped in a crash or was not done in five minutes, or if either program could not be run; with 2 for bad input.
set -euo pipefail
export LC_ALL=C

# One comparison: `same.sh --one NUMBER COMMAND`, the command as a line of shell words. Prints number, command, result.
one() {
    local number=$1 line=$2 code result side program
    local -a words
    eval "words=($line)"
    for side in old new; do
        program=$OLD
        [ "$side" = old ] || program=$NEW
        mkdir -p "$ROOM/$number/$side/work" "$ROOM/$number/home"
        code=0
        (
            cd "$ROOM/$number/$side/work"
            exec env -i PATH="$PATH" LC_ALL=C TZ=UTC RAYON_NUM_THREADS=2 HOME="$ROOM/$number/home" \
                XDG_CONFIG_HOME="$ROOM/$number/home" XDG_DATA_HOME="$ROOM/$number/home" \
                XDG_STATE_HOME="$ROOM/$number/home" XDG_CACHE_HOME="$ROOM/$number/home" \
                timeout 300 "$program" "${words[@]}" </dev/null >../stdout 2>../stderr
        ) || code=$?
        echo "$code" >"$ROOM/$number/$side/exit_code"
        # What one side leaves at home must not reach the other.
        mv "$ROOM/$number/home" "$ROOM/$number/$side/home"
    done
    result="same"
    diff -r "$ROOM/$number/old" "$ROOM/$number/new" >/dev/null 2>&1 || result="DIFFERS"
    for side in old new; do
        code=$(cat "$ROOM/$number/$side/exit_code")
        # 0 to 3 are the program's own.
        [ "$code" -le 3 ] || result="BROKEN($side: $code)"
    done
    printf '%s\t%s\t%s\t%s\n' "$result" "$(cat "$ROOM/$number/new/exit_code")" "$number" "$line"
    [ "$result" != same ] || rm -rf "${ROOM:?}/$number"
}

if [ "${1:-}" = --one ]; then
    one "$2" "$3"
    exit
fi

usage() {
    echo "same.sh: $1" >&2
    echo "usage: tests/same.sh OLD NEW [DESIGNS]" >&2
    exit 2
}
[ $# -ge 2 ] && [ $# -le 3 ] || usage "two programs are compared"
for program in "$1" "$2"; do
    { [ -f "$program" ] && [ -x "$program" ]; } || usage "$program is no program"
done
OLD=$(realpath "$1")
NEW=$(realpath "$2")
self=$(realpath "${BASH_SOURCE[0]}")
repo=$(dirname "$(dirname "$self")")
designs=()
if [ $# = 3 ]; then
    folder=$(realpath "$3")
    mapfile -t designs < <(find "$folder" -maxdepth 1 -name '*.ron' | sort)
    [ ${#designs[@]} -gt 0 ] || usage "$3 holds no designs"
fi
ROOM=$(mktemp -d)
export OLD NEW ROOM
demos=()
for demo in "$repo"/demo-data/*.ron; do demos+=("$(basename "$demo")"); done

# A command as a line of shell words.
say() { printf '%q ' "$@"; echo; }

commands=(forecast verdict beside aim matters learn mishap label packet clock card leaflet lesson runsheet log recipes pantry picture evidence)

helps() {
    local command
    for line in help --help -h --version -V "help nothing"; do echo "$line"; done
    for command in "${commands[@]}"; do
        echo "help $command"
        echo "$command --help"
    done
}

# Designs that a person spoiled by hand, in the room.
spoiled() {
    local pot=$repo/tests/data/designs/coconut-pot.ron n=0 change
    for change in 's/white_sugar/moon_dust/' 's/to_c: 5\.0/to_c: 1.0/' 's/jar_1l/thimble/' 's/version: 1/version: 9/' \
        's/fat: None/fat: Some(99.0), carbohydrate: Some(40.0)/' 's/litres: /liters: /' 's/body: (/body: ((/' \
        's/potset design/potset kitchen/' 's/set_c: [0-9.]*/set_c: 400.0/'; do
        n=$((n + 1))
        sed "0,/$(echo "$change" | cut -d/ -f2)/$change" "$pot" >"$ROOM/spoiled-$n.ron"
    done
    : >"$ROOM/empty.ron"
    echo "no design at all" >"$ROOM/text.ron"
}

wrong() {
    local command file
    for command in "${commands[@]}"; do
        [ "$command" = pantry ] || [ "$command" = recipes ] || [ "$command" = evidence ] || echo "$command"
        echo "$command --nothing"
        echo "$command nowhere.ron"
        echo "$command /"
    done
    for file in "$ROOM"/*.ron; do
        say "$file"
        say verdict "$file"
        say forecast "$file" --spread 20
        say matters "$file"
        say clock "$file"
        say aim "$file" --want vegan
        say beside goat-pot.ron "$file"
        say picture "$file" --out a.png
        say card "$file" --out a.pdf
        say label "$file"
        say evidence "$file"
    done
    cat <<'END'

frobnicate
goat-pot.ron
goat-pot.ron soy-set-pots.ron
--frobnicate
forecast goat-pot.ron soy-set-pots.ron
forecast goat-pot.ron --every 0
forecast goat-pot.ron --every many
forecast goat-pot.ron --hours 200
forecast goat-pot.ron --seed 3
forecast goat-pot.ron --spread 2
forecast goat-pot.ron --every
forecast goat-pot.ron --every 60 --every 30
forecast goat-pot.ron --out nowhere/a.csv
forecast goat-pot.ron --out .
forecast goat-pot.ron --out a.ron
verdict goat-pot.ron --csv
verdict goat-pot.ron --ron=yes
beside goat-pot.ron
beside goat-pot.ron goat-pot.ron goat-pot.ron goat-pot.ron goat-pot.ron
beside goat-pot.ron soy-set-pots.ron --csv --markdown
beside goat-pot.ron soy-set-pots.ron --out a.doc
beside goat-pot.ron soy-set-pots.ron --csv --out a.md
matters goat-pot.ron --spread 3
aim goat-pot.ron
aim goat-pot.ron --want frobnicate
aim goat-pot.ron --want 'ph<=1'
aim goat-pot.ron --want 'ph<=4.3' --want 'ph>=4.5'
aim goat-pot.ron --want 'texture=tins'
aim goat-pot.ron --want vegan --move Moon
aim goat-pot.ron --want vegan --hold Moon
aim goat-pot.ron --want vegan --usual --unusual
aim goat-pot.ron --want vegan --out nowhere/a.ron
picture goat-pot.ron
picture goat-pot.ron --out a.png --size 10x10
picture goat-pot.ron --out a.png --size big
picture goat-pot.ron --out a.png --theme blue
picture goat-pot.ron --out a.png --view attic
picture goat-pot.ron --out a.png --zoom 9
picture goat-pot.ron --out nowhere/a.png
log nowhere.ron 4.9
log goat-pot.ron 4.9
log a-batch.ron --begin goat-pot.ron --at soon
log nowhere/a.ron --begin goat-pot.ron --at '2026-11-26 18:30'
pantry nothing_of_this_name
pantry ' '
pantry --check salt
evidence --case nothing
evidence --csv --spread 20
evidence a.ron b.ron
label nowhere.txt
END
}

kept() {
    local file key
    for file in "$repo"/tests/data/labels/*.txt; do say label "$file"; done
    for line in "" --check milk coconut starch sugar; do echo "pantry $line"; done
    # Every key of the pantry, also of what is only part of an entry.
    sed -n 's/.*\bkey: "\([^"]*\)".*/\1/p' "$repo/assets/pantry.ron" | sort -u | while read -r key; do say pantry "$key"; done
    for line in "" --csv "--spread 20"; do
        echo "evidence $line"
        say evidence "$repo/tests/data/evidence/invented.ron" | sed "s/$/$line/"
    done
    sed -n 's/.*\bkey: "\([^"]*\)".*/\1/p' "$repo"/assets/evidence/*.ron | awk 'NR % 8 == 1' |
        while read -r key; do say evidence --case "$key"; done
    say evidence "$repo/tests/data/evidence/invented.ron" --case weir_skimmed
    say evidence --case lactic --spread 20
}

over_demos() {
    local n=${#demos[@]} i demo next theme size form view
    for i in "${!demos[@]}"; do
        demo=${demos[i]} next=${demos[(i + 1) % n]}
        say forecast "$demo"
        say forecast "$demo" --every 15 --hours 48 --out a.csv
        say forecast "$demo" --spread 50 --seed 3
        say verdict "$demo"
        say verdict "$demo" --ron
        say matters "$demo" --spread 100 --seed 2
        say beside "$demo" "$next"
        say beside "$next" "$demo" --csv
        say card "$demo" --out a.svg --size a5
        say leaflet "$demo" --out a.pdf --spoons us
        for theme in light dark; do
            for size in 1280x800 700x500; do say picture "$demo" --out a.png --theme "$theme" --size "$size"; done
        done
    done
    for form in csv md txt svg png; do say beside "${demos[3]}" "${demos[4]}" --out "a.$form"; done
    say beside "${demos[@]:0:4}" --markdown
    say beside "${demos[@]:9:3}"
    say forecast coconut-pot.ron --spread
    say matters coconut-pot.ron
    for view in beside sweep swap aim pantry label making; do
        say picture coconut-pot.ron --out a.png --view "$view" --size 1000x700
        say picture goat-pot.ron --out a.png --view "$view" --size 1000x700 --theme dark
    done
    for line in "" --over --tables; do echo "picture goat-pot.ron soy-set-pots.ron --out a.png $line"; done
    for form in pdf png md csv; do say card coconut-pot.ron --out "a.$form" --size wall; done
    say picture coconut-pot.ron --out a.png --spread --zoom 1.5
    cat <<'END'
aim goat-pot.ron --want 'sugar<=40' --move 'Leave it cold'
aim coconut-pot.ron --want 'sugar<=20' --move 'Stop after=8..30 by 2' --out a.ron
aim whole-milk-pot.ron --want 'ph<=4.4' --want 'ready<=8h' --move 'Stop after' --move 'Hold at' --seed 5
aim soy-set-pots.ron --want 'tang=bright' --move 'Stop after' --usual
aim failed-too-hot.ron --want 'ph<=4.3' --move 'Hold at' --unusual
aim failed-thin-and-sweet.ron --want 'texture=dollops' --move 'White sugar' --move 'Stop after'
END
}

over_designs() {
    local n=${#designs[@]} i design
    for i in "${!designs[@]}"; do
        design=${designs[i]}
        say forecast "$design" --every 60
        case $((i % 6)) in
        0 | 3) say verdict "$design" --ron && say beside "$design" "${designs[(i + 1) % n]}" ;;
        1 | 4) say verdict "$design" && say matters "$design" --spread 100 --seed 2 ;;
        *) say verdict "$design" && say forecast "$design" --spread 20 --seed 3 --every 120 ;;
        esac
        [ $((i % 15)) != 7 ] || say picture "$design" --out a.png --size 900x700
    done
}

spoiled
{
    helps
    wrong
    kept
    over_demos
    over_designs
} | grep -E -e "${ONLY:-}" >"$ROOM/commands" || usage "no command is like ${ONLY:-}"

results=$ROOM/results
awk '{ printf "%d%c%s%c", NR, 0, $0, 0 }' "$ROOM/commands" |
    xargs -0 -n 2 -P "${JOBS:-2}" bash "$self" --one >"$results" || true

made=$(wc -l <"$results")
planned=$(wc -l <"$ROOM/commands")
awk -F '\t' '
    { split($4, w, " "); c = w[1]; if (c !~ /^[a-z]+$/) c = "(none)"; n[c]++; code[c, $2]++; bad[c] += $1 != "same" }
    END {
        for (c in n) {
            printf "%-10s %4d compared, %d differ; ended with", c, n[c], bad[c]
            for (k = 0; k <= 255; k++) if ((c, k) in code) printf " %d: %d", k, code[c, k]
            print ""
        }
    }' "$results" | sort
if grep -v '^same' "$results" | sort -t "$(printf '\t')" -k 3n >"$ROOM/differ"; then
    awk -F '\t' -v room="$ROOM" '{ printf "%s: potset %s\n    %s/%s\n", $1, $4, room, $3 }' "$ROOM/differ"
fi
echo "$made comparisons of $planned, ${#designs[@]} designs, ${#demos[@]} demos: $(wc -l <"$ROOM/differ") differ"
if [ -s "$ROOM/differ" ] || [ "$made" != "$planned" ]; then
    exit 1
fi
rm -rf "$ROOM"
