"""Compares waterward's summary.csv and measures.csv with the pipeline's tables, row by row.

    compare.py FOLDER_OF_WATERWARD POSTGIS.CSV CANALS.CSV

Exits 1 if any figure differs for a reason not given here.
"""
import collections
import csv
import math
import sys

FOOT = 0.3048
ROUNDING = 0.005 * FOOT + 1e-6  # metres: the tables have hundredths of a foot
PLANES = 0.01 * FOOT  # metres: waterward's plane is within 0.01 ft of the geodesic
SCALE = 2.5e-5  # of a length: the pipeline's conic (load.sql) errs by 2.2e-5
STEP = 0.1  # metres between the points whose farthest the pipeline takes
AREA = 1e-3  # of an area: chords in place of arcs, scale twice
AREA_ROUNDING = 0.05 * FOOT * FOOT + 1e-6  # square metres: tenths of a square foot
# An edge of 60 m that is straight in degrees lies 0.04 mm off the straight one of a
# plane (length squared, by the tangent of the latitude, over eight radii).
SLIVER = 60 * 4e-5  # square metres
CANAL = 250 * FOOT  # how wide water is looked for that has a width (canals.sql)
# Positions have 7 decimals, so that the walls of a canal lean on each other by up to
# 0.02 ft each, and waterward follows them on to the head, past all places of the footprint.
WALLS = 0.04 * FOOT


class Tally:
    """What of one measure agrees, differs for a reason, or differs."""

    def __init__(self):
        self.agree = 0
        self.explained = collections.Counter()
        self.differ = []
        self.worst = 0.0

    def near(self, row, ours, theirs, below, above):
        """ours may lie as far below theirs, and as far above."""
        off = ours - theirs
        if -below <= off <= above:
            self.agree += 1
            self.worst = max(self.worst, abs(off))
        else:
            self.differ.append((abs(off), f"{row}: waterward {ours:.3f}, PostGIS {theirs:.3f}"))

    def say(self, row, ok, what):
        self.unless("", row, ok, what)

    def unless(self, reason, row, ok, what):
        """A difference is one, unless there is a reason for it."""
        if ok:
            self.agree += 1
        elif reason:
            self.explained[reason] += 1
        else:
            self.differ.append((math.inf, f"{row}: {what}"))


def slack(metres):
    return ROUNDING + PLANES + SCALE * metres


def number(text):
    return float(text) if text else None


def unsigned(nearest, farthest):
    """Distances without the side they are on: the pipeline has none."""
    low, high = sorted((nearest, farthest))
    return (0.0 if low <= 0 <= high else min(abs(low), abs(high))), max(abs(low), abs(high))


class Shore:
    """The shore behind a footprint as the pipeline sees it, and the reasons it gives for
    a difference: two, unless it knows the home bank itself (canals.sql), and unmapped,
    empty where it knows none."""

    def __init__(self, ours, theirs):
        self.bank = number(theirs["bank"])
        self.unmapped = "the mapped shore ends beside it: unknown" if theirs["unmapped"] == "t" else ""
        # Feet on one bank lie no farther apart along it than the footprint is long and
        # each of its ends is from it; on two, as of a canal, the shore goes round its head.
        apart = self.bank is not None and self.bank > float(theirs["diagonal"]) + 2 * float(theirs["mhw_farthest"])
        two = "two shores:" in ours["notices"] and (apart or int(theirs["shores"]) > 1)
        self.two = "two shores: the home bank is not the nearest everywhere" if two else ""


def reaches(tallies, name, line, ours, theirs, shore):
    pair = [number(ours[f"{line}_{end}_ft"]) for end in ("nearest", "farthest")]
    mine = unsigned(*(v * FOOT for v in pair)) if None not in pair else (None, None)
    # Sampled, a farthest is short by half a step at most.
    for end, own, sampled in zip(("nearest", "farthest"), mine, (0.0, STEP / 2)):
        t, other = tallies[f"{line}_{end}"], number(theirs[f"{line}_{end}"])
        if own is None or other is None:
            t.unless(shore.unmapped if own is None else "", name, own is other, f"waterward {own}, PostGIS {other}")
        elif shore.two and own > other + slack(other) + sampled:
            t.explained[shore.two] += 1  # farther, and never nearer
        else:
            t.near(name, own, other, slack(other), slack(other) + sampled)


def bank(tallies, name, ours, theirs, shore):
    length, parcels = number(ours["bank_length_ft"]), "; ".join(sorted(ours["parcels"].split("; ")))
    if length is None or shore.bank is None:
        tallies["bank_length"].unless(shore.unmapped if length is None else "", name, length is shore.bank, f"waterward {length} ft, PostGIS {shore.bank} m")
    elif shore.two and abs(length * FOOT - shore.bank) > slack(shore.bank):
        tallies["bank_length"].explained[shore.two] += 1
    else:
        tallies["bank_length"].near(name, length * FOOT, shore.bank, slack(shore.bank), slack(shore.bank))
    tallies["parcels"].unless(shore.two or (shore.unmapped if length is None else ""), name, parcels == theirs["parcels"],
                              f"waterward {parcels or 'none'}, PostGIS {theirs['parcels'] or 'none'}")


def width(t, name, ours, theirs, shore):
    if theirs is None:
        t.say(name, ours is None or ours * FOOT > CANAL - slack(CANAL), f"waterward {ours} ft, PostGIS none within {CANAL} m")
    elif ours is None:
        t.unless(shore.unmapped, name, False, f"waterward none, PostGIS {theirs} m")
    else:
        t.near(name, ours * FOOT, theirs, slack(theirs) + WALLS, slack(theirs))


def resource(t, name, ours, theirs, known):
    """A nearest distance is exact as far as the survey and the search reach, else blank."""
    if ours is None:
        t.say(name, theirs is None or known is None or theirs > known - slack(known),
              f"waterward has none, PostGIS {theirs} within {known}")
    elif theirs is None or known is None:
        t.say(name, False, f"waterward has {ours * FOOT:.3f}, PostGIS none (survey known for {known})")
    else:
        mine = max(0.0, ours * FOOT)  # across a riparian line it is how far beyond, as a negative
        t.near(name, mine, theirs, slack(theirs), slack(theirs))


def area(t, name, ours, theirs, known=0.0):
    if known is None or ours is None:
        t.say(name, known is None and ours is None, f"waterward {ours}, PostGIS {theirs}, survey known for {known}")
        return
    tolerance = AREA_ROUNDING + SLIVER + AREA * theirs
    t.near(name, ours * FOOT * FOOT, theirs, tolerance, tolerance)


def names(t, name, ours, theirs, known):
    if known is None:
        t.say(name, ours == "", f"waterward says {ours} outside the survey")
    else:
        t.say(name, ours == (theirs or "outside"), f"waterward {ours}, PostGIS {theirs or 'outside'}")


def table(path):
    with open(path, newline="") as f:
        return {r["id"]: r for r in csv.DictReader(f)}


def screened(folder):
    """The rows of both tables; a column that no row fills is left out of measures.csv."""
    measures = table(f"{folder}/measures.csv")
    return {name: collections.defaultdict(str, row | measures[name]) for name, row in table(f"{folder}/summary.csv").items()}


def main(folder, pipeline, canals):
    tool, theirs, canals = screened(folder), table(pipeline), table(canals)
    tallies = collections.defaultdict(Tally)
    for name in theirs.keys() - tool.keys():
        tallies["footprint"].say(name, False, "waterward has no row")
    for name, mine in tool.items():
        usable = bool(mine["footprint_sqft"])
        tallies["footprint"].say(name, usable == (name in theirs), f"a footprint: waterward {usable}, PostGIS {name in theirs}")
        if not usable or name not in theirs:
            continue
        other = theirs[name]
        shore = Shore(mine, other)
        if shore.two:
            home = canals[name]
            tallies["home_bank"].unless(shore.two, name, home["bank"], "")
            if home["bank"]:
                other = {**other, **{k: v for k, v in home.items() if k in other}}
                shore.bank, shore.two = float(home["bank"]), ""
        known, channels = number(other["surveyed_to"]), number(other["channels_to"])
        area(tallies["area"], name, number(mine["footprint_sqft"]), float(other["area"]))
        reaches(tallies, name, "mhw", mine, other, shore)
        reaches(tallies, name, "mlw", mine, other, shore)
        bank(tallies, name, mine, other, shore)
        if canals[name]["afloat"] == "t":
            width(tallies["canal_width"], name, number(mine["waterway_width_ft"]), number(canals[name]["across"]), shore)
        for kind, layer in (("seagrass", "seagrass"), ("wetland", "wetlands")):
            area(tallies[f"{kind}_overlap"], name, number(mine[f"{kind}_overlap_sqft"]), float(other[f"{layer}_overlap"]), known)
        for kind, layer in (("seagrass", "seagrass"), ("wetland", "wetlands"), ("riparian", "riparian")):
            resource(tallies[f"{kind}_nearest"], name, number(mine[f"{kind}_nearest_ft"]), number(other[f"{layer}_nearest"]), known)
        resource(tallies["channel_nearest"], name, number(mine["channel_nearest_ft"]), number(other["channel_nearest"]), channels)
        names(tallies["in_area_critical_habitat"], name, mine["in_area_critical_habitat"], other["habitat_touched"], known)
        names(tallies["in_area_aquatic_preserve"], name, mine["in_area_aquatic_preserve"], other["preserve_touched"], known)
    return report(tallies)


def report(tallies):
    failed = 0
    print(f"{'measure':26} {'agree':>7} {'explained':>9} {'differ':>7}  greatest difference among those that agree")
    for name, t in tallies.items():
        unit = "" if not t.worst else f"{t.worst:.4f} " + ("sq m" if "area" in name or "overlap" in name else "m")
        print(f"{name:26} {t.agree:7} {sum(t.explained.values()):9} {len(t.differ):7}  {unit}")
        failed += len(t.differ)
    for name, t in tallies.items():
        for why, n in t.explained.items():
            print(f"{name}: {n} explained: {why}")
        for _, line in sorted(t.differ, reverse=True)[:8]:
            print(f"{name}: DIFFERS: {line}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
