"""Measure in drawn photographs with known truth: `python tests/benchmarks/bench_scenes.py [2000]`."""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "photos"))

from scenes import many

if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    for in_picture, how in ((False, "corners good to 0.3 px"), (True, "edges fitted in drawn pictures")):
        began = time.perf_counter()
        print(f"{how}: {many(count, 7810, in_picture=in_picture)} ({time.perf_counter() - began:.0f} s)")
