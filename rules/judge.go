package rules

// Judge applies one criterion of a path to facts, by its deciding reading.
func Judge(path *Path, c *Criterion, facts Facts) Result { return judgeReading(path, c, nil, facts) }
