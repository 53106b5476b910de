"""Measures of structures beside shores, by dense sampling and brute force.

Reads sites.json and writes it anew with what each site measures, in feet. See README.md.
"""
import json
import math

import numpy as np
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import nearest_points, unary_union

LEAP = math.cos(math.radians(105))


def feet(points, edges):
    """Distance, foot and edge of the nearest of the edges, for every point."""
    dist, foot, edge = np.zeros(len(points)), np.zeros((len(points), 2)), np.zeros(len(points), int)
    a, v = edges[:, :2], edges[:, 2:] - edges[:, :2]
    for i in range(0, len(points), 4000):
        p = points[i:i + 4000, None]
        t = np.clip(((p - a) * v).sum(2) / (v ** 2).sum(1), 0, 1)
        f = a + t[..., None] * v
        d = ((p - f) ** 2).sum(2)
        k, row = d.argmin(1), np.arange(len(d))
        dist[i:i + 4000], foot[i:i + 4000], edge[i:i + 4000] = np.sqrt(d[row, k]), f[row, k], k
    return dist, foot, edge


def rings(area):
    for p in getattr(area, "geoms", [area]):
        if p.geom_type == "Polygon":
            yield from (np.array(r.coords) for r in [p.exterior, *p.interiors])


def inside(points, area):
    odd = np.zeros(len(points), bool)
    x, y = points[:, 0, None], points[:, 1, None]
    for c in rings(area):
        (x0, y0), (x1, y1) = c[:-1].T, c[1:].T
        with np.errstate(divide="ignore", invalid="ignore"):
            odd ^= (((y0 > y) != (y1 > y)) & (x < (x1 - x0) * (y - y0) / (y1 - y0) + x0)).sum(1) % 2 == 1
    return odd


def between(p, q, n):
    return p + (q - p) * np.linspace(0, 1, n)[:, None]


def outline(area, step):
    """The points of every ring, so close together."""
    for c in rings(area):
        yield np.concatenate([between(p, q, 2 + int(math.dist(p, q) / step)) for p, q in zip(c[:-1], c[1:])])


def lattice(area, step):
    """Points all over an area, and which of a grid they are."""
    x0, y0, x1, y1 = area.bounds
    nx, ny = int((x1 - x0) / step) + 1, int((y1 - y0) / step) + 1
    grid = np.stack(np.meshgrid(x0 + (np.arange(nx) + .5) * step, y0 + (np.arange(ny) + .5) * step), 2).reshape(-1, 2)
    return grid, inside(grid, area), nx


def greatest(area, edges):
    """Greatest distance from the edges of any point of the area, good to 0.004."""
    best = 0
    for p in outline(area, .25):
        d = feet(p, edges)[0]
        for i in np.argsort(-d)[:200]:
            if d[i] > d.max() - .25:
                best = max(best, *(feet(between(p[i], p[j % len(p)], 60), edges)[0].max() for j in (i - 1, i + 1)))
    step = max(.4, math.sqrt(area.area / 4000))
    grid, within, _ = lattice(area, step)
    p = grid[within]
    while len(p) and step > .002:
        d = feet(p, edges)[0]
        best = max(best, d.max())
        p = p[np.argsort(-d)[:300]][np.sort(-d)[:300] < step - best]
        near = (np.stack(np.meshgrid(*[np.linspace(-.6, .6, 7) * step] * 2), 2)).reshape(-1, 2)
        p = (p[:, None] + near).reshape(-1, 2)
        p, step = p[inside(p, area)], step / 4
    return best


def least(area, edges):
    return min(area.distance(LineString([e[:2], e[2:]])) for e in edges)


def farthest(area, land, edges, every):
    water = area.difference(land)
    return greatest(water, edges) if water.area > 1e-9 else -least(area, every)


def nearest(area, land, edges, every):
    ashore = area.intersection(land)
    return -greatest(ashore, every) if ashore.area > 1e-9 else least(area, edges)


def leaps(p, q, edges):
    """Which steps from p to q pass a place with two feet more than 105 degrees apart; the edges."""
    p, q = p.copy(), q.copy()
    first = feet(p, edges)[2]
    for _ in range(30):
        m = (p + q) / 2
        same = feet(m, edges)[2] == first
        p[same], q[~same] = m[same], m[~same]
    (d, f, k), (e, g, l) = feet(p, edges), feet(q, edges)
    return ((f - p) * (g - q)).sum(1) < LEAP * d * e, k, l


def tree(parts):
    """The least clear widths that join all the elements: (width, one, other)."""
    group, out = list(range(len(parts))), []
    for w, i, j in sorted((parts[i].distance(parts[j]), i, j) for i in range(len(parts)) for j in range(i)):
        if group[i] != group[j]:
            group = [group[j] if g == group[i] else g for g in group]
            out.append((w, i, j))
    return out


def across(parts, land, edges, walls, two):
    """The wall across the midway line from the greater part of the structure, of two that face each other."""
    facing, share = set(), {}
    for part in parts:
        water = part.difference(land)
        step = max(.25, math.sqrt(water.area / 2500))
        grid, within, nx = lattice(water, step)
        foot = feet(grid, edges)[2]
        for name in set(walls):
            share[name] = share.get(name, 0) + step * step * sum(walls[k] == name for k in foot[within])
        steps = [(grid[i], grid[j]) for i in np.where(within)[0] for j in (i + 1, i + nx)
                 if j < len(grid) and within[j] and (j % nx or j != i + 1)]
        for p in outline(water, .1):
            steps += zip(p[:-1], p[1:])
        facing |= pairs(steps, edges, walls)
    for _, i, j in tree(parts):
        line = between(*(np.array(p.coords[0]) for p in nearest_points(parts[i], parts[j])), 400)
        line = line[~inside(line, land)]
        facing |= pairs(zip(line[:-1], line[1:]), edges, walls)
    if not facing:
        return set()
    if facing != {tuple(sorted(two))}:
        raise ValueError("the definition alone does not settle its home bank")
    lesser = min(two, key=share.get)
    if share[lesser] > .48 * sum(share[w] for w in two):
        raise ValueError("equal halves")
    return {lesser}


def pairs(steps, edges, walls):
    steps = list(steps)
    if not steps:
        return set()
    p, q = (np.array([s[i] for s in steps]) for i in (0, 1))
    change = feet(p, edges)[2] != feet(q, edges)[2]
    is_leap, k, l = leaps(p[change], q[change], edges) if change.any() else ([], [], [])
    return {tuple(sorted((walls[a], walls[b]))) for leap, a, b in zip(is_leap, k, l) if leap}


def along(parts, lines):
    """The stretch of every line between the extreme feet of the outline, added up."""
    edges = np.array([e for _, line, _ in lines for e in line])
    of = np.array([n for n, (_, line, _) in enumerate(lines) for _ in line])
    start = np.concatenate([[s + sum(math.dist(e[:2], e[2:]) for e in line[:i]) for i in range(len(line))] for s, line, _ in lines])
    stations = [[] for _ in lines]
    for part in parts:
        for p in outline(part, .02):
            for finer in (True, False):
                _, foot, k = feet(p, edges)
                x, more = start[k] + np.hypot(*(foot - edges[k, :2]).T), set()
                for n in set(of[k]):
                    m = np.where(of[k] == n)[0]
                    stations[n].append(x[m])
                    more |= {m[x[m].argmin()], m[x[m].argmax()]}
                if finer:  # between those and their neighbours, and where the foot jumps
                    more |= set(np.where((np.abs(np.diff(x)) > .2) | (np.diff(of[k]) != 0))[0][:300])
                    p = np.concatenate([between(p[i], p[j % len(p)], 60) for i in more for j in (i - 1, i + 1)
                                        if math.dist(p[i], p[j % len(p)]) < .021])
    total = 0
    for x, (_, _, round_) in zip(stations, lines):
        if len(x) and round_:
            x = np.sort(np.concatenate(x))
            total += round_ - max(np.diff(x).max(), x[0] + round_ - x[-1])
        elif len(x):
            x = np.concatenate(x)
            total += x.max() - x.min()
    return total


def width(parts, land, home, shores):
    """Least straight way from a foot on the home bank through the structure to the next shore."""
    best = math.inf
    a, v = shores[:, :2], shores[:, 2:] - shores[:, :2]
    for part in parts:
        water = part.difference(land)
        grid, within, _ = lattice(water, max(.4, math.sqrt(water.area / 2000)))
        for p in [*outline(water, .1), grid[within]]:
            d, f, _ = feet(p, home)
            ok = d > .02
            f, u = f[ok, None], ((p - f)[ok] / d[ok, None])[:, None]
            with np.errstate(divide="ignore", invalid="ignore"):
                turn = u[..., 0] * v[:, 1] - u[..., 1] * v[:, 0]
                t = ((a - f)[..., 0] * v[:, 1] - (a - f)[..., 1] * v[:, 0]) / turn
                on = ((a - f)[..., 0] * u[..., 1] - (a - f)[..., 1] * u[..., 0]) / turn
            best = min(best, t[(on >= 0) & (on <= 1) & (t > .01)].min(initial=math.inf))
    return best


def points(flat):
    return list(zip(flat[::2], flat[1::2]))


def edges_of(lines):
    return np.array([(*p, *q) for line in lines for p, q in zip(line[:-1], line[1:])])


def measure(site):
    s = site["structure"]
    if "polygons" in s:
        parts = [Polygon(points(p)) for p in s["polygons"]]
        # of the strip of the same area and outline
        long = [p.length / 4 + math.sqrt(max(0, p.length ** 2 / 4 - 4 * p.area)) / 2 for p in parts]
    elif "lines" in s:
        parts = [LineString(points(p)).buffer(s["width"] / 2, resolution=64, cap_style=2) for p in s["lines"]]
        long = [LineString(points(p)).length for p in s["lines"]]
    else:
        parts = [Point(p).buffer(s["diameter"] / 2, resolution=256) for p in points(s["points"])]
        long = [s["diameter"]] * len(parts)
    whole = unary_union(parts)
    land, lowland = (unary_union([Polygon(points(p)) for p in site[n]]) for n in ("land", "low_land"))

    lines = [points(l["line"]) for l in site["shore"]]
    walls = [w for l in site["shore"] for w in l["walls"]]
    every = edges_of(lines)
    shores = every[[w != "rock" for w in walls]]
    away = across(parts, land, shores, [w for w in walls if w != "rock"], site.get("facing", [])) | {"rock"}
    kept = [w not in away for w in walls]
    home = every[kept]

    low = edges_of([points(l) for l in site["low"]])
    own = low[[kept[k] for k in feet((low[:, :2] + low[:, 2:]) / 2, every)[2]]]

    runs = []  # of the home bank: station of its start, edges, length if it is closed
    for l in lines:
        of, at, run = [kept.pop(0) for _ in l[1:]], 0, []
        for keep, p, q in zip(of, l[:-1], l[1:]):
            if keep:
                run.append((*p, *q))
            if run and not keep:
                runs.append((0, run, 0))
                run = []
        if run:
            runs.append((0, run, LineString(l).length if l[0] == l[-1] and all(of) else 0))

    openings = tree(parts)
    group = list(range(len(parts)))
    for w, i, j in openings:
        if w < 5:
            group = [group[j] if g == group[i] else g for g in group]
    run = max(sum(x for x, g in zip(long, group) if g == one) + sum(w for w, i, _ in openings if w < 5 and group[i] == one) for one in group)
    wide = math.inf if site.get("narrow") else width(parts, land, home, shores)
    return {
        "mhw_farthest": farthest(whole, land, home, every), "mhw_farthest_low": farthest(whole, land, every, every),
        "mhw_nearest": nearest(whole, land, home, every), "mhw_nearest_low": nearest(whole, land, every, every),
        "mlw_farthest": farthest(whole, lowland, own, low), "mlw_nearest": nearest(whole, lowland, own, low),
        "bank_length": along(parts, runs), "waterway_width": wide if wide < 1000 else None,
        "element_length": sum(long), "overall_length": sum(long) + sum(w for w, _, _ in openings), "longest_run": run,
        "narrowest_opening": min((w for w, _, _ in openings), default=None), "openings": sum(w >= 5 for w, _, _ in openings),
        "footprint_area": whole.area,
    }


if __name__ == "__main__":
    sites = json.load(open("sites.json"))
    for site in sites:
        site["want"] = {k: v if v is None else round(v, 4) for k, v in measure(site).items()}
    with open("sites.json", "w") as f:
        f.write("[\n" + ",\n".join(json.dumps(s) for s in sites) + "\n]\n")
