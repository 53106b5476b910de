package field

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked by hand: 0.5125 degree is 30 minutes 45 seconds.
func TestDegreesMinutesSeconds(t *testing.T) {
	for degrees, want := range map[float64]string{
		30:                              "30 00 00.00000 N",
		30.5125:                         "30 30 45.00000 N",
		-0.5:                            "00 30 00.00000 S",
		0:                               "00 00 00.00000 N",
		29 + 59./60 + 59.99999/3600:     "29 59 59.99999 N",
		29 + 59./60 + 59.999996/3600:    "30 00 00.00000 N", // 60 seconds are a minute, 60 minutes a degree
		29 + 58./60 + 59.999996/3600:    "29 59 00.00000 N",
		27 + 1./60 + 0.0000049/3600:     "27 01 00.00000 N",
		-(27 + 1./60 + 0.0000151/3600):  "27 01 00.00002 S",
		1. / 3600 / 100 * 12.3456700001: "00 00 00.12346 N",
	} {
		require.Equal(t, want, Latitude(degrees), degrees)
	}
	require.Equal(t, "074 36 00.00000 W", Longitude(-74.6))
	require.Equal(t, "005 00 01.50000 E", Longitude(5+1.5/3600))
	require.Equal(t, "180 00 00.00000 W", Longitude(-180))
}
