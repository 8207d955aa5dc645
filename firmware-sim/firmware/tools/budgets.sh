#!/bin/sh
# Holds an ELF to its budgets: budgets.sh <elf> <flash max> <static RAM max> <RAM of the part>.
# Prints one line; says what is wrong and exits 1 otherwise.
set -eu
elf=$1 flash_max=$2 ram_max=$3 ram_part=$4
here=$(dirname "$0")
cross=${CROSS:-avr-}

# Floating point (libgcc and avr-libc) and the heap must not be linked in at all.
unwanted=$("${cross}nm" "$elf" | awk '$3 ~ /^(__(add|sub|mul|div|cmp|eq|ne|lt|le|gt|ge|neg)[sd]f[23]|__fp_.*|__float.*|__fix.*[sd]f.*|malloc|calloc|realloc|free|sbrk|__brkval|__malloc_.*)$/ {print $3}')
if [ -n "$unwanted" ]; then
  echo "floating point or heap in the ELF:" $unwanted >&2
  exit 1
fi
set -- $("${cross}size" "$elf" | awk 'NR == 2 {print $1 + $2, $2 + $3}')
flash=$1 ram=$2
room=$((ram_part - ram))
stack_way=$("${cross}objdump" -d "$elf" |
  awk -v pointers='^obey_' -v from='^(command_obey|obey|answer|speak|jig_turn|main)' -f "$here/stack.awk") || exit 1
stack=${stack_way%% *}

bad=0
over() { echo "$1 is $2 bytes, $(($2 - $3)) more than the $3 allowed" >&2; bad=1; }
[ "$flash" -le "$flash_max" ] || over "flash" "$flash" "$flash_max"
[ "$ram" -le "$ram_max" ] || over "static RAM" "$ram" "$ram_max"
[ "$stack" -le "$room" ] || over "the stack's worst case" "$stack" "$room"

echo "flash $flash of $flash_max, static RAM $ram of $ram_max, stack at worst $stack of $room bytes; no heap, no recursion, no floating point"
[ "${SHOW_WAY:-}" = "" ] || echo "deepest: ${stack_way#* }"
exit $bad
