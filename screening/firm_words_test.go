package screening

import "strings"

// What the breakwater is called and made of. A word the books do not know decides
// nothing; the same word in another spelling is the same word.
var wordCases = []firmCase{
	{name: "kind in capitals with a hyphen", change: reef("kind", `"Break-Water"`), want: everyone(firm)},
	{name: "kind in the plural", change: reef("kind", `"Breakwaters"`), want: everyone(firm)},
	{name: "kind in a plural that is none", change: reef("kind", `"breakwaterss"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}, says: "breakwaterss|values"},
	{name: "material in the plural", change: reef("material", `"Oyster Shells"`), want: everyone(firm)},
	{name: "fill F", change: reef("fill", `"F"`), want: everyone(firm)},
	{name: "kind with blanks round it", change: reef("kind", `"  breakwater "`), want: everyone(firm)},
	{name: "a sill", change: reef("kind", `"SILL"`), want: everyone(firm)},
	{name: "a reef", change: reef("kind", `"reef"`), want: map[string]string{"lands": firm, "federal": firm, "town": barred}},
	{name: "seawall in two words", change: reef("kind", `"sea wall"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "seawall with a hyphen", change: reef("kind", `"Sea-Wall"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "riprap with a hyphen", change: reef("kind", `"rip-rap"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "riprap revetment", change: reef("kind", `"rip-rap revetment"`), want: map[string]string{"state": hard, "federal": wary, "town": wary}},
	{name: "pier", change: reef("kind", `"pier"`), want: map[string]string{"state": hard, "federal": hard, "town": hard}},
	{name: "dock", change: reef("kind", `"dock"`), want: map[string]string{"state": hard, "federal": hard, "town": hard}},
	{name: "jetty", change: reef("kind", `"jetty"`), want: map[string]string{"state": hard, "federal": hard, "town": hard}},
	{name: "groin", change: reef("kind", `"groin"`), want: map[string]string{"state": hard, "federal": wary, "town": hard}},
	{name: "mooring field", change: reef("kind", `"mooring field"`), want: map[string]string{"state": hard, "federal": hard, "town": hard}},
	{name: "boat lift", change: reef("kind", `"boat lift"`), want: map[string]string{"state": hard, "federal": hard, "town": hard}},
	{name: "kind that begins as a known one", change: reef("kind", `"breakwater and dock"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "kind that denies a known one", change: reef("kind", `"not a breakwater"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "kind with a letter of another script", change: reef("kind", `"bre\u0430kwater"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "kind without a letter", change: reef("kind", `"--"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "kind a number", change: reef("kind", `2`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "kind a list", change: reef("kind", `["breakwater","dock"]`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "kind yes", change: reef("kind", `true`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "kind not known", change: reef("kind", `"unknown"`), want: map[string]string{"state": asks, "federal": asks, "town": asks}, says: "kind"},
	{name: "kind to be told", change: reef("kind", `"TBD"`), want: map[string]string{"state": unsure, "federal": unsure, "town": unsure}},
	{name: "no kind", change: reef("kind", gone), want: map[string]string{"state": asks, "federal": asks, "town": asks}, says: "kind"},

	{name: "material with a hyphen", change: reef("material", `"Oyster-Shell"`), want: everyone(firm)},
	{name: "material with a low line", change: reef("material", `"OYSTER_SHELL"`), want: everyone(firm)},
	{name: "material with blanks", change: reef("material", `" oyster   shell"`), want: everyone(firm)},
	{name: "untreated lumber", change: reef("material", `"untreated lumber"`), want: map[string]string{"state": wary, "town": wary, "lands": firm}},
	{name: "treated timber with a hyphen", change: reef("material", `"Treated-Timber"`), want: map[string]string{"state": wary, "town": wary}},
	{name: "asphalt rubble", change: reef("material", `"asphalt rubble"`), want: map[string]string{"state": hard, "town": wary}},
	{name: "tire bales", change: reef("material", `"tire bales"`), want: map[string]string{"state": hard, "town": wary}},
	{name: "vinyl", change: reef("material", `"vinyl sheet"`), want: map[string]string{"state": wary, "town": wary}},
	{name: "shell and tires", change: reef("material", `"oyster shell and tires"`), want: map[string]string{"state": hard, "town": wary}},
	{name: "shell or timber", change: reef("material", `"oyster shell/timber"`), want: map[string]string{"state": hard, "town": wary}},
	{name: "no shell", change: reef("material", `"no oyster shell"`), want: map[string]string{"state": wary, "town": wary}},
	{name: "no material", change: reef("material", gone), want: map[string]string{"state": asks, "lands": firm, "federal": firm, "town": asks}, says: "material"},
	{name: "material not available", change: reef("material", `"N/A"`), want: map[string]string{"state": asks, "town": asks}, says: "material"},

	{name: "fill N", change: reef("fill", `"N"`), want: everyone(firm)},
	{name: "fill No with a blank", change: reef("fill", `"No "`), want: everyone(firm)},
	{name: "fill false", change: reef("fill", `false`), want: everyone(firm)},
	{name: "fill under a name in capitals", change: reef("fill", gone, "FILL", `"N"`), want: everyone(firm)},
	{name: "no fill stated", change: reef("fill", gone), want: map[string]string{"state": asks, "federal": firm, "town": asks}, says: "fill"},
	{name: "fill not known", change: reef("fill", `"unknown"`), want: map[string]string{"state": asks, "town": asks, "federal": firm}, says: "fill"},
	{name: "fill Y", change: reef("fill", `"Y"`), want: map[string]string{"state": barred, "town": barred}},
	{name: "fill of a volume", change: reef("fill", `"200 cu yd"`), want: map[string]string{"state": wary, "town": wary}},

	{name: "datum in two words", change: reef("datum", `"NAVD 88"`), want: everyone(firm)},
	{name: "datum in small letters with a hyphen", change: reef("datum", `"navd-88"`), want: everyone(firm)},
	{name: "layer datum in two words", change: several(layerSays("high_water", "datum", "NAVD 88"), layerSays("low_water", "datum", "navd88")), want: everyone(firm)},
	{name: "another datum", change: reef("datum", `"NGVD29"`), want: map[string]string{"state": asks, "lands": firm, "federal": firm, "town": asks}, says: "NGVD29"},
	{name: "a datum of another year", change: reef("datum", `"NAVD 29"`), want: map[string]string{"state": asks, "town": asks}},
	{name: "no datum", change: reef("datum", gone), want: map[string]string{"state": asks, "lands": firm, "federal": firm, "town": asks}, says: "datum"},
	{name: "mean sea level without a station", change: reef("datum", `"MSL"`), want: map[string]string{"state": asks, "town": asks}, says: "MSL"},
	{name: "above mean high water itself", change: reef("datum", `"MHW"`, "crest_elev_ft", "-1", "bed_elev_ft", "-2.4"), want: map[string]string{"state": firm, "lands": firm, "federal": firm}},

	{name: "kind looked for where no proposal has it", change: proposalsSay("properties", "{kind: TYP}"), refused: true, says: "TYP|there are|material"},
	{name: "crest looked for where no proposal has it", change: proposalsSay("properties", "{crest_elev_ft: TOP}"), refused: true, says: "TOP|crest_elev_ft"},
	{name: "crest looked for under nearly the name it has", change: proposalsSay("properties", "{crest_elev_ft: Crest_Elv_Ft}"), refused: true, says: "did you mean crest_elev_ft"},
	{name: "kind the same for all", change: several(reef("kind", gone), proposalsSay("properties", "{kind: {is: sill}}")), want: everyone(firm)},
	{name: "a kind under two spellings of its name", change: reef("KIND", `"dock"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "a kind stated twice", change: twiceStated(`"kind":"dock"`), want: map[string]string{"state": wary, "federal": wary, "town": wary}},
	{name: "a crest stated twice", change: twiceStated(`"crest_elev_ft":3`), want: map[string]string{"state": wary, "town": wary}},
	{name: "no fill, and how high it is filled", change: reef("fill_elev_ft", "2"), want: map[string]string{"state": unsure, "town": unsure}},
	{name: "a list of materials", change: reef("material", `["oyster shell","tires"]`), want: map[string]string{"state": wary, "town": wary}},
	{name: "a width and no line", change: reef("width_ft", "40"), want: everyone(firm)},
	{name: "other properties", change: reef("STATE_NOTE", `"dock next door"`, "kind_of_bird", `"heron"`), want: everyone(firm)},
}

// twiceStated puts a property before what the breakwater states.
func twiceStated(first string) change {
	return func(s *sandbox) {
		draw := s.drawn
		s.drawn = func(properties string) string {
			return strings.Replace(draw(properties), `"properties":{`, `"properties":{`+first+",", 1)
		}
	}
}
