#!/usr/bin/env bash
# The circuit's own proof, its layout and the build guide's tables: one line a check, "ok: ..." or "FAILED: ...", and a status of 1 when one failed. About a
# minute on two cores. Needs ngspice python3 python3-numpy (Debian).
set -u
cd "$(dirname "$0")" || exit 70
python=/usr/bin/python3
[ -x "$python" ] || python=python3
failed=0
if ! "$python" -c 'import numpy' 2>/dev/null; then
  echo "FAILED: python3 with numpy is missing; install the packages python3 and python3-numpy"
  exit 1
fi
timeout 400 "$python" -B proof/prove.py || failed=1
timeout 400 "$python" -B proof/mutations.py || failed=1
timeout 100 "$python" -B layout/check.py || failed=1
exit $failed
