package rules

import "math"

// weigh settles how sure a known result is: what is nearer to the limit than its
// accuracy is close, and doubts are kept that bear on it so near to the limit.
func (r *Result) weigh() {
	distance, isDistance := r.deciding()
	if !isDistance {
		distance = 0
	}
	for _, d := range r.Value.Doubts {
		if d.Within == 0 || distance < d.Within {
			r.doubt(d.Says)
		}
	}
	for _, also := range r.Value.Also {
		if also.Shift == 0 && r.flips(also) {
			r.doubt(also.Says)
		}
	}
	if !isDistance {
		return
	}
	// Areas and shares are not read to a hundredth of a foot; what is counted is
	// made of lengths. Equal to the resolution is not nearer; the nanometre
	// keeps rounding out of it.
	ofLengths := r.Measure.Quantity == Length || r.Measure.Quantity == Count
	shift := distance
	if r.Measure.Quantity == Length {
		shift = math.Min(shift, math.Abs(r.Margin))
	}
	if ofLengths && r.Value.Bound == Exact && shift < Resolution-1e-9 {
		r.Outcome = Close
	}
	r.Tolerance = r.Value.Tolerance()
	for _, a := range r.Value.Accuracy {
		if distance < a.unstatedWithin() {
			_, unstated := a.Tolerance()
			for _, text := range unstated {
				r.doubt(text)
			}
		}
	}
	if distance < r.Tolerance {
		r.Outcome = Close
	}
}

func (r *Result) doubt(says string) { r.Doubts = union(r.Doubts, []string{says}) }

// flips reports whether another number may fall on the other side of the limit.
func (r *Result) flips(also Also) bool {
	v := r.Value
	v.Number = also.Number
	_, holds, known := compare(r.Demand, v)
	return !known || holds != r.Holds || math.IsNaN(also.Number)
}

// deciding is the distance in metres the footprint or the line would have to
// shift for the answer to change, if there is such a distance.
func (r *Result) deciding() (metres float64, ok bool) {
	metres = math.Inf(1)
	switch {
	case r.edge() >= 0:
		metres, ok = r.edge(), true
	case r.Measure.Quantity == Length:
		metres, ok = math.Abs(r.Margin), true
	case r.Measure.Quantity == Area && r.Value.PerMetre > 0:
		metres, ok = math.Abs(r.Margin)/r.Value.PerMetre, true
	case r.Measure.Quantity == Ratio && r.Value.Whole > 0:
		metres, ok = math.Abs(r.Margin)*r.Value.Whole, true
	}
	for _, also := range r.Value.Also {
		if also.Shift > 0 && r.flips(also) {
			metres, ok = math.Min(metres, also.Shift), true
		}
	}
	return metres, ok
}

// edge is the size of the value's edge in metres, or -1 without one.
func (r *Result) edge() float64 {
	if r.Value.Edge == nil || math.IsNaN(*r.Value.Edge) {
		return -1
	}
	return math.Abs(*r.Value.Edge)
}
