package calc

// Standards are the standard uncertainties with which a cell was given.
func Standards(c *Cell) []float64 { return c.uncertainNumbers() }
