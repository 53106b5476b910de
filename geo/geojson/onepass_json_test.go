package geojson

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// requireSameValue: encoding/json takes as a value what holds no number that is not
// finite; that of another text than UTF-8 and one that is nested too deep are not
// taken in one pass.
func requireSameValue(t *testing.T, text string) {
	t.Helper()
	j := jsonPass{text: []byte(text)}
	took := j.value() && j.next() == 0 && j.i == len(text)
	var v any
	valid := json.Unmarshal([]byte(text), &v) == nil && utf8.ValidString(text)
	if took || strings.Count(text, "[")+strings.Count(text, "{") <= mostNested {
		require.Equal(t, valid, took, "%q", text)
	}
}

func TestOnePassOfValues(t *testing.T) {
	for _, text := range []string{"", "nul", "nulll", "-", "-0", "01", "1.", "1.e1", "1e", "1e+", "1E+2", ".5", "1e400", "-1e-400", "[1,]", "[,1]", `{"a"}`, `{"a":}`, `{1:2}`, `{"a":1,}`, `"\u12"`, `"\ud800"`, "\"\x7f\"", "\"\x1f\"", "\"\xed\xa0\x80\"", "[ ]", "{ }"} {
		requireSameValue(t, text)
	}
	nested := func(n int) string { return strings.Repeat("[", n) + strings.Repeat("]", n) }
	for n, want := range map[int]bool{mostNested: true, mostNested + 1: false} {
		j := jsonPass{text: []byte(nested(n))}
		require.Equal(t, want, j.value(), n)
	}
	random := rand.New(rand.NewPCG(1, 3))
	for range 20_000 {
		text := ""
		for range 1 + random.IntN(8) {
			text += slips[random.IntN(len(slips))]
		}
		requireSameValue(t, text)
	}
}

// Numbers are those of strconv, bit for bit, and their decimals those of decimalsOf.
// Halfway cases and the ends of the exact way are those of Clinger 1990.
func TestNumbersBitForBit(t *testing.T) {
	check := func(text string) {
		want, err := strconv.ParseFloat(text, 64)
		j := jsonPass{text: []byte(text)}
		got, decimals, ok := j.number()
		whole := ok && j.i == len(text)
		require.Equal(t, err == nil && json.Valid([]byte(text)), whole, text)
		if whole {
			require.Equal(t, math.Float64bits(want), math.Float64bits(got), text)
			require.Equal(t, decimalsOf([]byte(text)), decimals, text)
		}
	}
	for _, text := range []string{
		"0", "-0", "-0.0", "-0.000e5", "9007199254740991", "9007199254740992", "9007199254740993", "900719925474099.3", "9.007199254740993", "-90071.99254740993",
		"0.1", "0.000000000000000001", "0.0000000000000000001", "1234567890.123456789", "12345678901234567890", "18446744073709551616", "1844674407370955161.7",
		"179.9999999999999999999999", "1e22", "1e23", "8.5e-7", "5e-324", "2e-324", "1.7976931348623157e308", "1.7976931348623159e308", "1e309", "-", "00", "1.5.5", "538805.0", "1.500",
	} {
		check(text)
	}
	random := rand.New(rand.NewPCG(11, 13))
	digits := func(most int) string {
		b := make([]byte, 1+random.IntN(most))
		for i := range b {
			b[i] = byte('0' + random.IntN(10))
		}
		return string(b)
	}
	for range 200_000 {
		text := strconv.Itoa(random.IntN(200))
		switch random.IntN(8) {
		case 0:
			text = strconv.FormatFloat(math.Float64frombits(random.Uint64()), 'g', 1+random.IntN(17), 64)
		case 1:
			text = digits(22)
		case 2:
			text += "." + digits(9) + "e" + []string{"", "+", "-"}[random.IntN(3)] + digits(3)
		default:
			text += "." + digits(18)
		}
		if random.IntN(2) == 0 {
			text = "-" + text
		}
		check(text)
	}
}
