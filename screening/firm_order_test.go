package screening

// What is plainly in order stays so.
var inOrderCases = []firmCase{
	{name: "all stated and surveyed", want: everyone(firm), measured: map[string]string{
		// Worked by hand from what is drawn.
		"mhw_farthest_ft": "9.00", "mhw_nearest_ft": "3.00", "mlw_farthest_ft": "-1.00", "bank_length_ft": "60.00",
		"crest_above_mhw_ft": "-1.00", "riparian_nearest_ft": "100.00",
	}},
}
