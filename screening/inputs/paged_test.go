package inputs

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/geo/geojson"
	"waterward/screening/job"
)

// readText reads a text to its end.
func readText(t *testing.T, text string) *geojson.Reader {
	t.Helper()
	reader, err := geojson.NewReader("page", strings.NewReader(text))
	require.NoError(t, err)
	for {
		if _, err := reader.Next(); err == io.EOF {
			return reader
		}
		require.NoError(t, err)
	}
}

const oneFeature = `"features":[{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[-74.600000001,30.000000001]}}]`

// The members by which feature services, WFS 2.0 (OGC 09-025r2) and OGC API Features
// (OGC 17-069r4) say that more is to come, ahead of the features or behind them; from
// memory of the standards.
func TestPagesSaySo(t *testing.T) {
	for members, sign := range map[string]string{
		`"exceededTransferLimit":true`:                                    "exceededTransferLimit",
		`"exceededTransferLimit":"true"`:                                  "exceededTransferLimit",
		`"properties":{"exceededTransferLimit":"True"}`:                   "exceededTransferLimit",
		`"exceededTransferLimit":1`:                                       "exceededTransferLimit",
		`"exceededTransferLimit":"yes"`:                                   "exceededTransferLimit",
		`"exceededTransferLimit":"false"`:                                 "",
		`"exceededTransferLimit":null`:                                    "",
		`"properties":{"exceededTransferLimit":0}`:                        "",
		`"numberMatched":1260,"numberReturned":1`:                         "numberReturned 1 of numberMatched 1260",
		`"numberMatched":"1260","numberReturned":"1000"`:                  "numberReturned 1000 of numberMatched 1260",
		`"numberMatched":1,"numberReturned":1`:                            "",
		`"numberMatched":"unknown","numberReturned":1`:                    "",
		`"links":[{"rel":"self","href":"a"},{"rel":"next","href":"b"}]`:   `a link to the "next"`,
		`"links":[{"rel":"self","href":"a"},{"rel":"collection"}]`:        "",
		`"links":{"next":"b"}`:                                            "",
		`"links":"next","next":"b","name":"exceededTransferLimit","id":7`: "",
	} {
		for _, text := range []string{`{"type":"FeatureCollection",` + members + "," + oneFeature + "}", `{"type":"FeatureCollection",` + oneFeature + "," + members + "}"} {
			err := Refuse(readText(t, text), "page")
			if sign == "" {
				require.NoError(t, err, text)
				continue
			}
			require.EqualError(t, err, "page: it is one page of a longer layer ("+sign+"); fetch all of it", text)
		}
	}
}

// A count that stands alone tells a page only beside the features.
func TestCountsThatFallShortAreWarnedOf(t *testing.T) {
	for members, warned := range map[string][]string{
		`"totalFeatures":1260`: {"seagrass: page has 1 feature and says of 1260 that they match (totalFeatures): fetch all of it"},
		`"numberMatched":2`:    {"seagrass: page has 1 feature and says of 2 that they match (numberMatched): fetch all of it"},
		`"numberMatched":1`:    nil,
		`"totalFeatures":null`: nil,
	} {
		got := warnings("seagrass", "page", 1, 1, readText(t, `{"type":"FeatureCollection",`+members+","+oneFeature+"}"))
		require.Equal(t, warned, got, members)
	}
}

// Half a metre is 1.64 ft; half a tenth of a degree of the equator, whose degree is
// 111,319.49 m, is 18,261.1 ft.
func TestDecimalsInWords(t *testing.T) {
	for position, warned := range map[string]string{
		`"crs":{"type":"name","properties":{"name":"EPSG:6347"}},"features":[538805.0,3318785.0]`: "0 decimals, so its positions may be 1.64 ft off",
		`"features":[-74.600,30.0]`: "1 decimal, so its positions may be 18261.07 ft off",
	} {
		text := strings.Replace(position, `"features":[`, `"features":[{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[`, 1)
		got := warnings("seagrass", "grass", 1, 1, readText(t, `{"type":"FeatureCollection",`+text+`}}]}`))
		require.Equal(t, []string{"seagrass: a feature of grass is written with " + warned + ": export it with more"}, got)
	}
}

// Of features that cannot be used no digits are known.
func TestNoDecimalsAreNoGrain(t *testing.T) {
	require.Empty(t, warnings("seagrass", "grass", 1, 0, readText(t, `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":null}]}`)))
}

// What the job looks for under a name that no feature of a file has is said, once a
// feature could be read; other cases of a name are the same name.
func TestPropertiesThatNoFeatureHas(t *testing.T) {
	fields := job.Fields{"date": {From: "SRCDAT"}, "accuracy_ft": {From: "HOR_ACC", Unit: "m"}, "name": {From: "LABEL"}, "side": {Is: "water_left"}}
	for features, warned := range map[string][]string{
		`{"type":"Feature","properties":{"SRC_DATE":1},"geometry":null},{"type":"Feature","properties":{"hor_acc":null,"Label":2},"geometry":null}`: {
			"high_water: no feature of shore has the property SRCDAT, in which date is looked for: correct the name, or the file",
			"high_water: no feature of shore has the property PIN, in which parcel_id is looked for: correct the name, or the file",
		},
		`{"type":"Feature","properties":{"SRCDAT":"","PIN":""},"geometry":null},{"type":"Feature","properties":{"HOR_ACC":4,"label":2},"geometry":null}`: nil,
		`{"type":"Feature","properties":{"a":tru}}`: nil,
		``: nil,
	} {
		reader, err := geojson.NewReader("shore", strings.NewReader(`{"type":"FeatureCollection","features":[`+features+`]}`))
		require.NoError(t, err)
		s := NewSought(fields, "PIN")
		for {
			f, err := reader.Next()
			if err == io.EOF {
				break
			}
			require.NoError(t, err)
			s.See(f)
		}
		require.Equal(t, warned, s.Warnings("high_water", "shore"), features)
	}
}
