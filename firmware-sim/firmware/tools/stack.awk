# The stack's worst case, from the disassembly of the whole program (avr-objdump -d).
#
# Of each function: what it pushes, its frame, and whom it calls. Then the deepest way from main() with the
# deeper interrupt on top; interrupts do not nest. A cycle of calls, or a call through a pointer from a
# function that is not named here, is an error: the worst case would not be known.
# Variables: pointers (a pattern of the functions that the command table points to), from (who may call
# through a pointer). Prints "<bytes> <way>".

function hex(text,   value, i) {
  value = 0
  text = tolower(text)
  sub(/^0x/, "", text)
  for (i = 1; i <= length(text); i++) value = value * 16 + index("0123456789abcdef", substr(text, i, 1)) - 1
  return value
}

function fail(what) { print "stack: " what > "/dev/stderr"; failed = 1; exit 1 }

/^[0-9a-f]+ <.*>:$/ {
  now = $2
  gsub(/[<>:]/, "", now)
  names[now] = 1
  seen_in = 0
  next
}

now == "" || !/^ *[0-9a-f]+:\t/ { next }

{
  split($0, part, "\t")
  operation = part[3]
  operands = part[4]
  target = ""
  if (match($0, /<[^>]*>/)) target = substr($0, RSTART + 1, RLENGTH - 2)
}

operation == "push" { own[now]++; next }
operation == "ldi" && operands ~ /^r26,/ { split(operands, v, ", "); low = hex(v[2]); next }
operation == "ldi" && operands ~ /^r27,/ { split(operands, v, ", "); high = hex(v[2]); next }
operation == "in" && operands ~ /^r28, 0x3d/ { seen_in = 1; next }
operation == "sbiw" && operands ~ /^r28,/ && seen_in { split(operands, v, ", "); own[now] += hex(v[2]); seen_in = 0; next }
operation == "subi" && operands ~ /^r28,/ && seen_in { split(operands, v, ", "); frame = hex(v[2]); next }
operation == "sbci" && operands ~ /^r29,/ && seen_in { split(operands, v, ", "); own[now] += frame + 256 * hex(v[2]); seen_in = 0; next }

# Prologues kept once for all: 18 registers at most, entered two bytes later for each that is not saved.
operation ~ /^r?jmp$/ && target ~ /^__prologue_saves__/ {
  skipped = target ~ /\+/ ? hex(substr(target, index(target, "+") + 1)) / 2 : 0
  own[now] += 18 - skipped + low + 256 * high
  next
}

operation == "rcall" && operands ~ /^\.\+0/ { own[now] += 2; next } # makes room for two bytes
operation ~ /^(r?call)$/ {
  sub(/\+0x[0-9a-f]+$/, "", target)
  if (target != now || target == "") calls[now] = calls[now] " " target
  else fail(now " calls itself")
  next
}
operation ~ /^r?jmp$/ {
  inside = target
  sub(/\+0x[0-9a-f]+$/, "", inside)
  if (inside != now && target !~ /\+/ && target !~ /^__epilogue_restores__/) tails[now] = tails[now] " " target
  next
}
operation == "icall" || operation == "eicall" {
  if (now !~ from) fail(now " calls through a pointer, which tools/stack.awk does not know of")
  through[now] = 1
}

function depth(name,   i, n, list, deepest, d, best) {
  if (name in known) return known[name]
  if (name in open) fail("a cycle of calls through " name)
  if (!(name in names)) fail("no function is called \"" name "\"")
  open[name] = 1
  deepest = 0
  n = split(calls[name], list, " ")
  if (through[name]) for (i in names) if (i ~ pointers) { list[++n] = i }
  for (i = 1; i <= n; i++) {
    d = depth(list[i]) + 2 # the return address
    if (d > deepest) { deepest = d; best = list[i] }
  }
  deepest += own[name]
  n = split(tails[name], list, " ") # its own frame is gone by then
  for (i = 1; i <= n; i++) if (list[i] in names && list[i] !~ /^__(vector|ctors|init|bad)/) {
    d = depth(list[i])
    if (d > deepest) { deepest = d; best = list[i] }
  }
  delete open[name]
  next_of[name] = best
  return known[name] = deepest
}

END {
  if (failed) exit 1
  pointed = 0
  for (i in names) if (i ~ pointers) pointed++
  if (pointed == 0) fail("no function matches " pointers)
  worst_interrupt = 0
  for (i in names) if (i ~ /^__vector_[0-9]+$/) {
    d = depth(i) + 2
    if (d > worst_interrupt) { worst_interrupt = d; interrupt = i }
  }
  total = depth("main") + 2 + worst_interrupt
  way = "main"
  for (i = next_of["main"]; i != ""; i = next_of[i]) way = way " " i
  gsub(/\.(lto_priv|constprop|part|isra)\.[0-9]+/, "", way)
  print total, way " + " interrupt " (" worst_interrupt ")"
}
