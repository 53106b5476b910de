"""Prints the timings of a run as Markdown.

    table.py SIZE WORK_FOLDER LOAD_BEFORE_WATERWARD LOAD_BEFORE_POSTGIS
"""
import os
import sys


def read(path):
    with open(path) as f:
        return f.read()


def main(size, work, tool_load, pipeline_load):
    model = next((line.split(":")[1].strip() for line in read("/proc/cpuinfo").splitlines() if line.startswith("model name")), "unknown")
    memory = int(read("/proc/meminfo").split()[1]) / 2**20
    layers = sum(e.stat().st_size for e in os.scandir(f"{work}/coast")) / 1e6
    versions, counts, _ = read(f"{work}/postgis.facts").splitlines()
    wall, user, system, peak = (float(v) for v in read(f"{work}/waterward.time").split()[-4:])
    parts = [line.split() for line in read(f"{work}/postgis.time").splitlines()]
    total = sum(float(seconds) for _, seconds in parts)
    pipeline_peak = max((int(line) for line in read(f"{work}/postgis.memory").split()), default=0)
    print(f"{os.cpu_count()} cores ({model}), {memory:.0f} GB; {versions}. {size}: {counts}; {layers:.0f} MB of GeoJSON. "
          f"Load average just before: {tool_load} and {pipeline_load}.\n")
    used = sum(float(v) for v in read(f"{work}/postgis.processor").split())
    print("| | wall | processor | peak memory |\n|---|---:|---:|---:|")
    print(f"| waterward: every measure, decisions, outputs | {wall:.1f} s | {user + system:.1f} s | {peak / 1024:.0f} MB |")
    print(f"| PostGIS: the measures compared, limits and exports ({', '.join(f'{n} {s} s' for n, s in parts)}) | {total:.1f} s | {used:.1f} s | {pipeline_peak / 1024:.0f} MB |")
    print(f"| PostGIS over waterward | {total / wall:.2f} | {used / (user + system):.2f} | {pipeline_peak / peak:.2f} |")


if __name__ == "__main__":
    main(*sys.argv[1:])
