package tune

type outlineCache struct{}
