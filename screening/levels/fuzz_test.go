package levels

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// FuzzReaders reads tables of water levels, stations and oysters of any bytes: an error,
// or something that can be asked without a panic and knows no NaN for a number.
func FuzzReaders(f *testing.F) {
	for _, seed := range []string{
		"Date Time, Water Level, Sigma, O or I (for verified), F, R, L, Quality \n2018-10-10 18:00,2.5,0.1,1,0,0,0,p\n2018-10-10 18:06,,,1,1,1,1,p\n2018-10-10 18:12,2.6,,1,0,0,0,p\n",
		"Date Time, Prediction\n2026-11-25 00:00,1\n2026-11-25 01:00,2\n2026-11-25 02:00,1\n",
		"time,level\n10/1/2016 0:00,#VALUE!\n2016-10-01T01:00:00Z,1e308\n",
		"Error: No data was found. This product may not be offered at this station at the requested time.",
		"station,1\nunit,feet\nepoch,1983-2001\nMHW,2\nMLW,1\nM2,1,0\n",
		`{"datums":[{"name":"MHW","value":"2.41"}],"units":"meters","epoch":"1983-2001"}`,
		"lon,lat,top_ft,bottom_ft,datum\n-74.6,30,1,0,NAVD88\n",
		"time,level\n2026-11-25 00:00,1\n2026-11-25 01:00,30\n2026-11-25 02:00,-30\n2026-11-25 03:00,1\n2026-11-25 04:00,60\n",
		"time,level,sigma\n2026-11-25 00:00,1,93\n2026-11-25 00:06,1,95\n2026-11-25 00:12,2,01\n", "time;level\n2026-11-25 00:00;1,93\n", "time,level\n2026-11-25 00:00,\"1,93\"\n",
		"", "\x00", "time,level\n", "2026-11-25 00:00,1\n",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if s, err := ReadSeries([]byte(text), Stated{Metres, MLLW, time.UTC}); err == nil {
			require.False(t, math.IsNaN(s.coverage()))
			if e, err := s.Exposure(); err == nil {
				percent, err := e.Percent(0)
				require.True(t, err != nil || percent >= 0 && percent <= 100)
			}
			s.Reduce()
		}
		if s, err := ReadStation([]byte(text)); err == nil {
			for _, e := range s.InAll(0, MHW) {
				require.Equal(t, e.Unknown != "", math.IsNaN(e.Metres))
			}
		}
		ReadConstituents([]byte(text))
		ReadClumps([]byte(text))
	})
}
