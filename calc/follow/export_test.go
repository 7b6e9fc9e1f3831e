package follow

// Seeded is a follower whose sampler draws by another seed.
func Seeded(seed uint64) *Follower { return &Follower{scores: scoresOf(seed)} }
