#!/usr/bin/env bash
# The emulated board on a pseudo-terminal: asks, presses the foot switch, reboots it in mid-record, asks again.
set -u
cd "$(dirname "$0")/.." || exit 70
folder=$(mktemp -d)
build/emulated-board --elf ../firmware/build/conewise.elf --resistor 8 --port "$folder/jig" --control "$folder/control" \
  --seconds 60 2>"$folder/report" &
board=$!
trap 'kill $board 2>/dev/null; wait $board 2>/dev/null; rm -rf "$folder"' EXIT
for _ in $(seq 50); do [ -e "$folder/jig" ] && [ -p "$folder/control" ] && break; sleep 0.1; done
exec 3<>"$folder/jig" || exit 1

# expect <pattern>: the next lines, until one matches, for ten seconds at most.
expect() {
  local line
  while IFS= read -r -t 10 line <&3; do
    [[ $line =~ $1 ]] && return 0
  done
  echo "nothing came that matches: $1"
  exit 1
}
order() { echo "$1" >"$folder/control"; }

expect '^! ready cause=power '
printf '\n1 status\n' >&3
expect '^1 ok tick=.* checked=no '
order "foot down"
expect '^! foot state=down '
printf '2 play wave=tone millihertz=50000 level=300\n' >&3
expect '^2 ok step='
printf '3 record channels=2 frames=100000 skip=0 decimate=1\n' >&3
expect '^: 01 0010 '
order "reboot"
expect '^! ready cause=reset '
printf '\n4 status\n' >&3
expect '^4 ok tick=.* wave=none recording=0 '
printf '5 lamp name=pass state=on\n' >&3
expect '^5 ok '
order "lamps"
order "quit"
wait $board || { echo "the emulated board ended with $?"; cat "$folder/report"; exit 1; }
grep -q '^lamps pass=1 fail=0 ' "$folder/report" || { echo "the lamp is dark"; cat "$folder/report"; exit 1; }
grep -q '^emulated .* times real time$' "$folder/report" || { echo "no report"; exit 1; }
[ ! -e "$folder/jig" ] || { echo "the link is left behind"; exit 1; }
