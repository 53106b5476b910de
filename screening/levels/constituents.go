package levels

import (
	"math"
	"strings"
)

// constituent is a harmonic constituent: its argument is
// multiples . longitudes + offset, and the node adds shifts . node.shifts to it
// and multiplies the amplitude by factor (SP 98, table 2).
type constituent struct {
	name      string
	multiples longitudes // of T, s, h, p, p1
	offset    float64
	shifts    [6]float64 // of xi, nu, nu', 2nu", Q, R
	factor    func(node) float64
}

// speed is in degrees an hour.
func (c *constituent) speed() float64 { return c.multiples.of(hourly) }

// argument is V, in degrees.
func (c *constituent) argument(l longitudes) float64 { return c.multiples.of(l) + c.offset }

// shift is u, in degrees.
func (c *constituent) shift(n node) float64 {
	sum := 0.0
	for k, m := range c.shifts {
		sum += m * n.shifts[k]
	}
	return sum
}

func (l longitudes) of(other longitudes) float64 {
	sum := 0.0
	for k := range l {
		sum += l[k] * other[k]
	}
	return sum
}

// The 37 constituents the tide service publishes. Compound ones add up their
// parts; MSf is taken as S2 less M2, as published tables of V0+u have it. M1 is
// that of SP 98, whose perigee is in Q and so in u; lists that give it a speed of
// 14.4966939 have the perigee in V. The two part by up to 20 degrees in a year.
var constituents = []constituent{
	{"M2", longitudes{2, -2, 2, 0, 0}, 0, [6]float64{xi: 2, nu: -2}, fM2},
	{"S2", longitudes{2, 0, 0, 0, 0}, 0, [6]float64{}, fixed},
	{"N2", longitudes{2, -3, 2, 1, 0}, 0, [6]float64{xi: 2, nu: -2}, fM2},
	{"K1", longitudes{1, 0, 1, 0, 0}, -90, [6]float64{nuPrime: -1}, fK1},
	{"M4", longitudes{4, -4, 4, 0, 0}, 0, [6]float64{xi: 4, nu: -4}, power(fM2, 2)},
	{"O1", longitudes{1, -2, 1, 0, 0}, 90, [6]float64{xi: 2, nu: -1}, fO1},
	{"M6", longitudes{6, -6, 6, 0, 0}, 0, [6]float64{xi: 6, nu: -6}, power(fM2, 3)},
	{"MK3", longitudes{3, -2, 3, 0, 0}, -90, [6]float64{xi: 2, nu: -2, nuPrime: -1}, product(fM2, fK1)},
	{"S4", longitudes{4, 0, 0, 0, 0}, 0, [6]float64{}, fixed},
	{"MN4", longitudes{4, -5, 4, 1, 0}, 0, [6]float64{xi: 4, nu: -4}, power(fM2, 2)},
	{"NU2", longitudes{2, -3, 4, -1, 0}, 0, [6]float64{xi: 2, nu: -2}, fM2},
	{"S6", longitudes{6, 0, 0, 0, 0}, 0, [6]float64{}, fixed},
	{"MU2", longitudes{2, -4, 4, 0, 0}, 0, [6]float64{xi: 2, nu: -2}, fM2},
	{"2N2", longitudes{2, -4, 2, 2, 0}, 0, [6]float64{xi: 2, nu: -2}, fM2},
	{"OO1", longitudes{1, 2, 1, 0, 0}, -90, [6]float64{xi: -2, nu: -1}, fOO1},
	{"LAM2", longitudes{2, -1, 0, 1, 0}, 180, [6]float64{xi: 2, nu: -2}, fM2},
	{"S1", longitudes{1, 0, 0, 0, 0}, 0, [6]float64{}, fixed},
	{"M1", longitudes{1, -1, 1, 0, 0}, -90, [6]float64{xi: 1, nu: -1, qAngle: 1}, fM1},
	{"J1", longitudes{1, 1, 1, -1, 0}, -90, [6]float64{nu: -1}, fJ1},
	{"MM", longitudes{0, 1, 0, -1, 0}, 0, [6]float64{}, fMm},
	{"SSA", longitudes{0, 0, 2, 0, 0}, 0, [6]float64{}, fixed},
	{"SA", longitudes{0, 0, 1, 0, 0}, 0, [6]float64{}, fixed},
	{"MSF", longitudes{0, 2, -2, 0, 0}, 0, [6]float64{xi: -2, nu: 2}, fM2},
	{"MF", longitudes{0, 2, 0, 0, 0}, 0, [6]float64{xi: -2}, fMf},
	{"RHO", longitudes{1, -3, 3, -1, 0}, 90, [6]float64{xi: 2, nu: -1}, fO1},
	{"Q1", longitudes{1, -3, 1, 1, 0}, 90, [6]float64{xi: 2, nu: -1}, fO1},
	{"T2", longitudes{2, 0, -1, 0, 1}, 0, [6]float64{}, fixed},
	{"R2", longitudes{2, 0, 1, 0, -1}, 180, [6]float64{}, fixed},
	{"2Q1", longitudes{1, -4, 1, 2, 0}, 90, [6]float64{xi: 2, nu: -1}, fO1},
	{"P1", longitudes{1, 0, -1, 0, 0}, 90, [6]float64{}, fixed},
	{"2SM2", longitudes{2, 2, -2, 0, 0}, 0, [6]float64{xi: -2, nu: 2}, fM2},
	{"M3", longitudes{3, -3, 3, 0, 0}, 0, [6]float64{xi: 3, nu: -3}, fM3},
	{"L2", longitudes{2, -1, 2, -1, 0}, 180, [6]float64{xi: 2, nu: -2, rAngle: -1}, fL2},
	{"2MK3", longitudes{3, -4, 3, 0, 0}, 90, [6]float64{xi: 4, nu: -4, nuPrime: 1}, product(power(fM2, 2), fK1)},
	{"K2", longitudes{2, 0, 2, 0, 0}, 0, [6]float64{twoNuSecond: -1}, fK2},
	{"M8", longitudes{8, -8, 8, 0, 0}, 0, [6]float64{xi: 8, nu: -8}, power(fM2, 4)},
	{"MS4", longitudes{4, -2, 2, 0, 0}, 0, [6]float64{xi: 2, nu: -2}, fM2},
}

// findConstituent is nil for a name not known; two of them have two names.
func findConstituent(name string) *constituent {
	name = strings.ToUpper(strings.TrimSpace(name))
	switch name {
	case "RHO1":
		name = "RHO"
	case "LDA2", "LAMBDA2":
		name = "LAM2"
	}
	for k := range constituents {
		if constituents[k].name == name {
			return &constituents[k]
		}
	}
	return nil
}

// The node factors, each divided by its mean (SP 98, formulae 73 to 78,
// 149, 207, 215, 227 and 235).

func fixed(node) float64 { return 1 }

func fM2(n node) float64 { return math.Pow(math.Cos(n.i/2), 4) / 0.9154 }

func fM3(n node) float64 { return math.Pow(math.Cos(n.i/2), 6) / 0.8758 }

func fO1(n node) float64 { return n.sinI * math.Pow(math.Cos(n.i/2), 2) / 0.3800 }

func fOO1(n node) float64 { return n.sinI * math.Pow(math.Sin(n.i/2), 2) / 0.0164 }

func fJ1(n node) float64 { return n.sin2I / 0.7214 }

func fMf(n node) float64 { return n.sinI * n.sinI / 0.1578 }

func fMm(n node) float64 { return (2.0/3 - n.sinI*n.sinI) / 0.5021 }

func fK1(n node) float64 {
	return math.Sqrt(0.8965*n.sin2I*n.sin2I + 0.6001*n.sin2I*math.Cos(n.nu) + 0.1006)
}

func fK2(n node) float64 {
	square := n.sinI * n.sinI
	return math.Sqrt(19.0444*square*square + 2.7702*square*math.Cos(2*n.nu) + 0.0981)
}

func fM1(n node) float64 { return fO1(n) * math.Sqrt(2.310+1.435*math.Cos(2*n.perigee)) }

func fL2(n node) float64 {
	square := n.tanHalf * n.tanHalf
	return fM2(n) * math.Sqrt(1-12*square*math.Cos(2*n.perigee)+36*square*square)
}

func power(f func(node) float64, of int) func(node) float64 {
	return func(n node) float64 { return math.Pow(f(n), float64(of)) }
}

func product(f, g func(node) float64) func(node) float64 {
	return func(n node) float64 { return f(n) * g(n) }
}
