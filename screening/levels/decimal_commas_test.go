package levels

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Decimals with a comma are named as such, however the table has them, and no row has more
// columns than the header names.
func TestDecimalCommas(t *testing.T) {
	const first, second, third = "2018-10-09 00:00,", "\n2018-10-09 00:06,", "\n2018-10-09 00:12,"
	for text, says := range map[string]string{
		"time,val\n" + first + "1,93" + second + "1,95":                               "line 2 has 3 columns and the header 2",
		"time,val\n" + first + "1.93" + second + "1.95,":                              "line 3 has 3 columns and the header 2",
		"time,val,note\n" + first + "1.93,a" + second + "1,95,b,c":                    "line 3 has 5 columns and the header 3",
		"time,val\n" + first + `"1,934"`:                                              `line 2: the level "1,934" has a decimal comma; save the table with commas between columns and points in decimals`,
		"time,val\n" + first + `"-,5"`:                                                "has a decimal comma",
		"time;val\n2018-10-09 00:00;1,93\n":                                           "semicolons part its columns, as where decimals have commas; save the table",
		"Date Time; Water Level; Sigma\n2018-10-09 00:00;1.93;0\n":                    "semicolons part its columns",
		"time,val,sigma\n" + first + "1,93" + second + "1,95" + third + "2,01":        "such as 1,93 on line 2: a decimal comma has parted them",
		"time,val,sigma\n" + first + "-1,93,0" + second + "1,95,0" + third + "2,01,0": "line 2 has 4 columns",
	} {
		_, err := ReadSeries([]byte(text), inFeet)
		require.ErrorContains(t, err, says, text)
	}
	for _, text := range []string{
		"time,val,flag\n" + first + "1,0" + second + "2,1" + third + "2,0",           // flags have two values
		"time,val,n\n" + first + "1.5,3" + second + "2,4" + third + "2,5",            // a point is there
		"time,val,n\n" + first + "1,3" + second + "2," + third + "2,5",               // nothing beside it
		"time,val,sigma\n" + first + "1,0.03" + second + "2,0.04" + third + "2,0.05", // no digits alone
		"n,time,val\n"[2:] + first + "1" + second + "2" + third + "2",
	} {
		s, err := ReadSeries([]byte(text), Stated{Feet, MLLW, time.UTC})
		require.NoError(t, err, text)
		require.Equal(t, 3, s.valid())
	}
	const station = "station,A\nunit,feet\nepoch,1983-2001\n"
	for rows, says := range map[string]string{
		"MHW,2,41\n":         "line 4: MHW has 2 values, not 1; write decimals with a point",
		`MHW,"2,41"` + "\n":  `line 4: MHW: "2,41" has a decimal comma`,
		"M2,0,87,33,7\n":     "M2 has 4 values, not 2",
		"lon,-74,5\n":        "lon has 2 values, not 1",
		"name,Teal, Sound\n": "name has 2 values, not 1; write decimals with a point, and a text with a comma in quotes",
		"MHW;2.41\n":         `"MHW;2.41" has no value; part the two by a comma`,
	} {
		_, err := ReadStation([]byte(station + rows))
		require.ErrorContains(t, err, says)
	}
	_, err := ReadStation([]byte("station,A,\nunit,feet,\nepoch,1983-2001,\nMHW,2.4,\nM2,0.8,33\n")) // as spreadsheets fill rows
	require.NoError(t, err)
}
