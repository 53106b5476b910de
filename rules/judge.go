package rules

// Judge applies one criterion of a path to facts, by its deciding interpretation.
func Judge(path *Path, c *Criterion, facts Facts) Result {
	return judgeInterpretation(path, c, nil, facts)
}
