#!/usr/bin/env bash
# Checks a box of the demo on the emulated board, as a shop would on a real one: builds what is missing, starts
# the board on a pseudo-terminal, runs ./conewise check on it in real time, then says what the firmware took.
#   firmware-sim/emulation/run.sh [WORLD]
# WORLD is a box of the demo (heron, heron-driver-reversed, heron-leaky, wren, ...); without one it is heron.
# The status is that of the check: 0 pass, 1 fail, 2 undecided, 3 not judged; 70 when the board does not start.
set -u
world=${1:-heron}
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
plan=$root/host/station/src/main/resources/conewise/plans/${world%%-*}.yaml
folder=$(mktemp -d)
board=""
trap '[ -n "$board" ] && kill "$board" 2>/dev/null; rm -rf "$folder"' EXIT

give_up() {
  echo "run.sh: $1" >&2
  exit 70
}

[ -f "$plan" ] || give_up "\"$world\" is no box of the demo: there is no plan $plan."
make -s -C "$root/firmware-sim/firmware" || give_up "the firmware does not build; see above."
make -s -C "$here" || give_up "the emulator does not build; see above."
"$root/conewise" --version >"$folder/version" || give_up "the application does not build; see above."
app=$root/host/station/target/app
"$(cat "$app/java")" -cp "$app/conewise.jar" conewise.simulator.world.ModelExport "$world" >"$folder/model" 2>"$folder/said" ||
  give_up "$(cat "$folder/said")"
"$here/build/emulated-board" --elf "$root/firmware-sim/firmware/build/conewise.elf" --model "$folder/model" \
  --port "$folder/jig" 2>"$folder/report" &
board=$!
for _ in $(seq 100); do
  [ -e "$folder/jig" ] && break
  kill -0 "$board" 2>/dev/null || give_up "the emulated board did not start: $(cat "$folder/report")"
  sleep 0.05
done

"$root/conewise" check --port "$folder/jig" --serial EMULATED-1 --plan "$plan" --keep "$root/target/emulated-runs"
status=$?
kill "$board"
wait "$board"
board=""
echo
echo "The firmware on the emulated board, from its start to the end of the check (check's status: $status):"
sed 's/^/  /' "$folder/report"
exit "$status"
