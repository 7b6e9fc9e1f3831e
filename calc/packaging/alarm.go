package packaging

// AlarmKind is why a package is warned of.
type AlarmKind string

// The alarms, each with what a brewer can do about it.
const (
	OverRated       AlarmKind = "over-rated"        // less primer, or stronger bottles
	LittleHeadroom  AlarmKind = "little-headroom"   // half a volume less, stronger bottles, or a forced test
	SlowStrain      AlarmKind = "slow-strain"       // the longer gap, or a forced test of the beer as it is
	SlowHoney       AlarmKind = "slow-honey"        // the same, or boil the honey
	SlowHops        AlarmKind = "slow-hops"         // the same, or fewer hops, sooner
	HoneyPastWindow AlarmKind = "honey-past-window" // add it in the window, or a forced test
	Contradiction   AlarmKind = "contradiction"     // read again
)

// leastHeadroom is the headroom under which a bottle is warned of, points.
const leastHeadroom = 1.0

// Alarm is one warning.
type Alarm struct {
	Kind AlarmKind
	// LowerToVolumes is the planned CO2 that leaves a point of headroom, and
	// StrongerVolumes the class of bottle that would; where the kind is about it.
	LowerToVolumes, StrongerVolumes float64
}

func (g *Guard) alarms() {
	add := func(k AlarmKind) { g.Alarms = append(g.Alarms, Alarm{Kind: k}) }
	if !g.Keg {
		room := leastHeadroom * VolumesPerPoint
		a := Alarm{LowerToVolumes: g.RatedVolumes - room, StrongerVolumes: g.PlannedVolumes + room}
		switch {
		case g.HeadroomPoints < 0:
			a.Kind = OverRated
			g.Alarms = append(g.Alarms, a)
		case g.HeadroomPoints < leastHeadroom-1e-9:
			a.Kind = LittleHeadroom
			g.Alarms = append(g.Alarms, a)
		}
		slow := map[Kind]AlarmKind{EatsDextrin: SlowStrain, RawHoney: SlowHoney, ColdHops: SlowHops}
		for _, t := range g.Tails {
			if k, ok := slow[t.Kind]; ok && !t.harmless(g.HeadroomPoints) {
				add(k)
			}
		}
		if g.HoneyPastWindow {
			add(HoneyPastWindow)
		}
	}
	if g.ReadingsContradict {
		add(Contradiction)
	}
}
