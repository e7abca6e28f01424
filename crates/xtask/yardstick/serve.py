"""Serves pairs line by line: a JSON request in, a JSON answer out, until the input ends.

Request: {"a": path, "b": path, "ppi_a": number or null, "ppi_b": ..., "points": [[x, y], ...]}.
The answer is that of compare.py with seconds (wall), cpu_seconds, and peak_bytes of this process
while it worked (Linux only, else null). A pair that fails answers {"error": why}.
"""

import json
import sys
import time

import compare


def _forget_peak() -> bool:
    try:
        with open("/proc/self/clear_refs", "w") as f:
            f.write("5")  # Linux, man 5 proc: resets the peak resident set size
        return True
    except OSError:
        return False


def _peak_bytes():
    try:
        with open("/proc/self/status") as f:
            return next(int(line.split()[1]) * 1024 for line in f if line.startswith("VmHWM:"))
    except (OSError, StopIteration):
        return None


def main() -> None:
    for line in sys.stdin:
        ask = json.loads(line)
        cleared = _forget_peak()
        wall, cpu = time.perf_counter(), time.process_time()
        try:
            said = compare.compare(ask["a"], ask["b"], ask.get("ppi_a"), ask.get("ppi_b"), ask.get("points") or ())
        except Exception as why:  # one bad pair must not end the run
            said = {"error": f"{type(why).__name__}: {why}"}
        said["seconds"] = time.perf_counter() - wall
        said["cpu_seconds"] = time.process_time() - cpu
        said["peak_bytes"] = _peak_bytes() if cleared else None
        print(json.dumps(said), flush=True)


if __name__ == "__main__":
    main()
