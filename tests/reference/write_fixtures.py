"""Writes kernel.jsonl and its ORIGIN.md. Called by `refresh SEED [COUNT [FOLDER]]`."""

import json
import platform
import sys
import time
from collections import Counter
from datetime import date
from importlib.metadata import version
from multiprocessing import Pool
from pathlib import Path

import measure
from coverage import pad_coverage
from draw_setups import draw_setup
from frames import changes_between, default_setup
from kernel import as_json, setup_clearances

PROCESSES = 2
PACKAGES = ("cadquery-ocp", "shapely", "numpy")


def work(task):
    """(record, tally, complaint) of one setup."""
    seed, index = task
    setup = draw_setup(seed, index)
    measure.tally.clear()
    try:
        clearances = setup_clearances(setup)
    except measure.KernelDoubt as doubt:
        return None, Counter(), f"setup {index}: {doubt}"
    record = {
        "changes": changes_between(default_setup(), setup),
        "pairs": as_json(clearances),
        "coverage": round(pad_coverage(setup), 9),
    }
    return record, Counter(measure.tally), None


def counts(records):
    """Rows of (pair, positive gaps, overlaps, contacts, smallest positive gap, smallest overlap)."""
    found = {}
    for record in records:
        for name, pair in record["pairs"].items():
            found.setdefault(name, []).append(pair)
    for name, pairs in sorted(found.items()):
        gaps = [p["gap"] for p in pairs if p["gap"] > 0]
        volumes = [p["overlap_volume"] for p in pairs if p["overlap_volume"] > 0]
        yield name, len(gaps), len(volumes), len(pairs) - len(gaps) - len(volumes), min(gaps, default=0), min(
            volumes, default=0
        )


def origin(seed, count, records, tally):
    versions = ", ".join(f"{name} {version(name)}" for name in PACKAGES)
    table = "\n".join(f"| {name} | {g} | {v} | {c} |" for name, g, v, c, _, _ in counts(records))
    ways = "\n".join(f"- {way}: {number}" for way, number in sorted(tally.items()))
    return f"""# kernel.jsonl

Clearances and pad coverage of {len(records)} random setups, computed by other programs than Tabwright's core:
gaps and common volumes by a full solid-modelling kernel on exact line, arc, plane, cylinder and cone geometry,
coverage by a polygon library.

- Made by: `tests/reference/refresh {seed} {count}` on {date.today().isoformat()}
- Versions: Python {platform.python_version()}, {versions}
- Seed: {seed}; setup number i depends on the seed and i alone. All of it is made up, nothing was measured.

## Format

One JSON object per line:

- `changes`: what differs from `fixtures/setups/default.json`. Objects are merged key by key; numbers, texts and lists
  replace what the default has. `caliper.bolt_direction` ([cw, rad, out]) is there for post mounts alone.
- `pairs`: by pair name, `gap` (mm, to 6 decimals; 0 where the parts touch or overlap) and `overlap_volume` (mm3; above 0
  where they overlap). A pair has several solids on a side: `gap` is the smallest between any two, `overlap_volume` the
  largest that any two share. `tab/tube` is there for side-lug mounts whose tab is let into the tube alone.
- `coverage`: share of the pad's area on the braking band, to 9 decimals (good to 1e-6).

Every gap was confirmed by a plane that parts the two solids by that much, to 1e-6 mm; every overlap by a point in both.

| pair | apart | overlapping | just touching |
|---|---|---|---|
{table}

How the answers came about (two solids at a time):

{ways}
"""


def main(seed, count, folder):
    began = time.time()
    records, tally, complaints = [], Counter(), []
    with Pool(PROCESSES) as pool:
        for record, ways, complaint in pool.imap(work, ((seed, i) for i in range(count)), chunksize=4):
            tally += ways
            if complaint:
                complaints.append(complaint)
            else:
                records.append(record)
    print(f"{'pair':16} {'apart':>6} {'overlap':>8} {'touch':>6} {'smallest gap':>13} {'smallest volume':>16}")
    for name, gaps, volumes, contacts, gap, volume in counts(records):
        print(f"{name:16} {gaps:6} {volumes:8} {contacts:6} {gap:13.6f} {volume:16.6f}")
    covered = [r["coverage"] for r in records]
    print(f"coverage from {min(covered):.4f} to {max(covered):.4f}")
    print("answers:", dict(sorted(tally.items())))
    print(f"{len(records)} setups in {time.time() - began:.0f} s")
    folder.mkdir(parents=True, exist_ok=True)
    lines = "".join(json.dumps(record, separators=(",", ":")) + "\n" for record in records)
    (folder / "kernel.jsonl").write_text(lines)
    story = folder / "ORIGIN.md"
    _, heading, others = story.read_text().partition("\n# ") if story.exists() else ("", "", "")
    story.write_text(origin(seed, count, records, tally) + heading + others)
    if complaints:
        sys.exit("Left out, as the kernel's answers could not be confirmed:\n" + "\n".join(complaints))


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3]))
