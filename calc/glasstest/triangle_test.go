package glasstest

// needed is the least number of right answers of so many trials that show a
// difference at a level, such as [Proof]; 0 where no number does.
func needed(trials int, level float64) int {
	for right := 1; right <= trials; right++ {
		if (Triangles{right, trials}).ByChance() <= level {
			return right
		}
	}
	return 0
}
