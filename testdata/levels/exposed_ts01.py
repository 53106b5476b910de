"""Share of the time exposed at the demo's station TS-01 over 1983-2001, every ten minutes.

An independent working of exposed_ts01.csv: mean longitudes after Schureman (1940),
Table 1; nodal factors after Schureman, formulas 73-79 expanded to the first harmonic of
the node (Doodson and Warburg 1941, Table; good to 0.005); no line of it is shared with
the tool. Run with python3 and numpy.
"""
import numpy as np

MSL_OVER_NAVD88 = 5.70 - 6.00  # ft, ts01.csv
CONSTITUENTS = {}  # name: amplitude in ft, phase at Greenwich in degrees
for line in open("../marrowby/ts01.csv"):
    row = line.strip().split(",")
    if row[0] in ("M2", "S2", "N2", "K1", "O1", "SA"):
        CONSTITUENTS[row[0]] = (float(row[1]), float(row[2]))

days = np.arange(0, (np.datetime64("2002-01-01") - np.datetime64("1983-01-01")).astype(int), 10 / 1440)
century = (days + (np.datetime64("1983-01-01") - np.datetime64("1899-12-31")).astype(int)) / 36525
# Longitudes at 1900 January 0, 0 h, of the moon, the sun, the perigee and the node.
s = 277.0248 + 481267.8906 * century
h = 280.1895 + 36000.7689 * century
p = 334.3853 + 4069.0340 * century
N = np.radians(259.1568 - 1934.1420 * century)
T = 360 * (days % 1) + 180  # hour angle of the mean sun
M2f, M2u = 1.0004 - 0.0373 * np.cos(N), -2.14 * np.sin(N)
K1f, K1u = 1.0060 + 0.1150 * np.cos(N), -8.86 * np.sin(N)
O1f, O1u = 1.0089 + 0.1871 * np.cos(N), 10.80 * np.sin(N)
ARGUMENT = {
    "M2": (2 * (T - s + h), M2f, M2u),
    "N2": (2 * T - 3 * s + 2 * h + p, M2f, M2u),
    "S2": (2 * T, 1, 0),
    "K1": (T + h - 90, K1f, K1u),
    "O1": (T - 2 * s + h + 90, O1f, O1u),
    "SA": (h, 1, 0),
}
level = np.full(len(days), MSL_OVER_NAVD88)
for name, (amplitude, phase) in CONSTITUENTS.items():
    argument, f, u = ARGUMENT[name]
    level += amplitude * f * np.cos(np.radians(argument + u - phase))
print("elev_navd88_ft,exposed_pct")
for z in (-4.2, -3.2, -1.7, -1.1, -0.7, -0.02, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 0.98, 1.2, 1.3, 2.12):
    print(f"{z},{100 * np.mean(level < z):.2f}")
for share in (10, 20, 40, 55):
    print(f"# exposed {share} %: {np.percentile(level, share):.3f} ft")
