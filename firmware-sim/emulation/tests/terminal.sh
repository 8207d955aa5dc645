#!/usr/bin/env bash
# The emulated board on a pseudo-terminal: opens it twice, asks, presses the foot switch, reboots it in mid-record,
# asks again; then a board that is not wired to restart when its port is opened.
set -u
cd "$(dirname "$0")/.." || exit 70
folder=$(mktemp -d)
trap 'kill $board 2>/dev/null; wait $board 2>/dev/null; rm -rf "$folder"' EXIT

# start <option...>: a board at $folder/jig.
start() {
  build/emulated-board --elf ../firmware/build/conewise.elf --resistor 8 --port "$folder/jig" \
    --control "$folder/control" --seconds 60 "$@" 2>"$folder/report" &
  board=$!
  for _ in $(seq 50); do [ -e "$folder/jig" ] && [ -p "$folder/control" ] && break; sleep 0.1; done
}
# expect <pattern>: the next lines, until one matches, for ten seconds at most.
expect() {
  local line
  while IFS= read -r -t 10 line <&3; do
    [[ $line =~ $1 ]] && return 0
  done
  fail "nothing came that matches: $1"
}
order() { echo "$1" >"$folder/control"; }
fail() {
  echo "$1"
  cat "$folder/report"
  exit 1
}
end() {
  order "quit"
  wait $board || fail "the emulated board ended with $?"
  [ ! -e "$folder/jig" ] || fail "the link is left behind"
}

start
exec 3<>"$folder/jig" || exit 1
expect '^! ready cause=reset '
printf '\n1 play wave=dc dc=100\n' >&3
expect '^1 ok '
exec 3<&-
exec 3<>"$folder/jig" || exit 1
IFS= read -r -t 10 line <&3 # the empty line before it ends what a reset may have cut
expect '^! ready cause=reset '
printf '\n1 status\n' >&3
expect '^1 ok tick=.* wave=none .* halts=0 checked=no '
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
printf '6 status\n' >&3 # a lamp follows its answer within a millisecond; this answer alone takes two
expect '^6 ok '
order "lamps"
end
grep -q '^lamps pass=1 fail=0 ' "$folder/report" || fail "the lamp is dark"
grep -q '^emulated .* times real time$' "$folder/report" || fail "no report"

start --no-restart
exec 3<>"$folder/jig" || exit 1
expect '^! ready cause=power '
printf '\n1 play wave=dc dc=100\n' >&3
expect '^1 ok '
exec 3<&-
exec 3<>"$folder/jig" || exit 1
printf '\n2 status\n' >&3
IFS= read -r -t 10 line <&3
[[ $line =~ ^2\ ok\ tick=.*\ wave=dc\  ]] || fail "not wired to restart, and yet it answers: $line"
end
