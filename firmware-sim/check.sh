#!/usr/bin/env bash
# Builds and tries firmware and emulated board: one line a check, "ok: ..." or "FAILED: ...", and a status
# of 1 when one failed. About a minute on two cores. Needs gcc-avr avr-libc libsimavr-dev libelf-dev clang
# libclang-rt-dev cppcheck make (Debian).
# FUZZ_SECONDS (default 15) bounds the fuzzer; SEED its seed (printed).
set -u
cd "$(dirname "$0")" || exit 70
log=$(mktemp)
trap 'rm -f "$log"' EXIT
failed=0

# check <what> <command...>: one line; what the command said follows a failure.
check() {
  local what=$1
  shift
  if "$@" >"$log" 2>&1; then
    echo "ok: $what$(sed -n 's/^flash /: flash /p' "$log" | head -n 1)"
  else
    echo "FAILED: $what"
    tail -n 20 "$log" | sed 's/^/  /'
    failed=$((failed + 1))
  fi
}

# each <command...>: the command's own ok and FAILED lines.
each() {
  if ! timeout 300 "$@" >"$log" 2>&1; then
    grep -q '^FAILED:' "$log" || { echo "FAILED: $*"; tail -n 20 "$log" | sed 's/^/  /'; failed=$((failed + 1)); }
  fi
  grep -v '^flash ' "$log"
  failed=$((failed + $(grep -c '^FAILED:' "$log")))
}

over_budget() {
  make -s -C firmware budgets FLASH_MAX=1000 && return 1
  make -s -C firmware budgets RAM_MAX=1000 && return 1
  make -s -C firmware budgets RAM_PART=1600 && return 1
  return 0
}

# A function that calls itself, by way of another, must be found out.
recursion() {
  local folder
  folder=$(mktemp -d)
  cat >"$folder/a.c" <<'C'
int b(int n);
volatile int x;
__attribute__((noinline)) int a(int n) { return n == 0 ? x : b(n - 1) + x; }
__attribute__((noinline)) int b(int n) { return n == 0 ? x : a(n - 1) * x; }
void obey_x(void) { x = 1; }
int main(void) { obey_x(); return a(x); }
C
  avr-gcc -mmcu=atmega328p -Os -fno-optimize-sibling-calls "$folder/a.c" -o "$folder/a.elf" &&
    ! firmware/tools/budgets.sh "$folder/a.elf" 16384 1536 2048 2>"$folder/why" && grep -q 'cycle of calls\|calls itself' "$folder/why"
  local result=$?
  rm -rf "$folder"
  return $result
}

floating() {
  local folder
  folder=$(mktemp -d)
  echo 'volatile float x; void obey_x(void) { x = x * 2; } int main(void) { obey_x(); return 0; }' >"$folder/a.c"
  avr-gcc -mmcu=atmega328p -Os "$folder/a.c" -o "$folder/a.elf" &&
    ! firmware/tools/budgets.sh "$folder/a.elf" 16384 1536 2048 2>"$folder/why" && grep -q 'floating point' "$folder/why"
  local result=$?
  rm -rf "$folder"
  return $result
}

check "the firmware builds within its budgets" make -s -C firmware
check "a build above its budgets fails" over_budget
check "the stack's reckoning finds recursion" recursion
check "floating point is found in an ELF" floating
check "gcc, clang and cppcheck have nothing to say" make -s -C firmware lint
each make -s -C firmware test
seed=${SEED:-$((RANDOM + 1))}
check "the fuzzer finds nothing in ${FUZZ_SECONDS:-15} s (SEED=$seed)" \
  make -s -C firmware fuzz SECONDS="${FUZZ_SECONDS:-15}" SEED="$seed"
check "the emulated board builds" make -s -C emulation
each make -s -C emulation test
check "the emulated board answers on a pseudo-terminal, also after a reboot" emulation/tests/terminal.sh
exit $((failed > 0))
