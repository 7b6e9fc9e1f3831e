// Package cautions has the sentences about what can hurt someone who brews, each once:
// predictions, the window, the commands and the printed sheet all take them from here.
// They are the usual cautions of the trade (common practice, no source, unless one
// stands beside them). Local law and the makers' instructions come first; no sentence
// says that something is safe.
//
// What was measured or planned comes in where a caution depends on it, messages go
// out. It must not know where they are shown.
package cautions

import "skep/calc/message"

// MaltDust is of the mill.
func MaltDust() message.Message {
	return message.New("Malt dust burns and harms lungs: open air, no flame.")
}

// Sulphite is of the metabisulphite that takes chlorine out.
func Sulphite() message.Message {
	return message.New("Sulphite dust harms lungs, with asthma badly.")
}

// Acid is of what lowers the pH of a mash.
func Acid() message.Message {
	return message.New("Acid burns: gloves, eye protection; acid into water, never the other way.")
}

// Scald is of everything hot.
func Scald() message.Message {
	return message.New("Liquor, wort and steam scald at once: long sleeves, closed shoes, no child near.")
}

// Mains is of heater and pump.
func Mains() message.Message {
	return message.New("Mains by water: residual-current device, dry hands, the maker's instructions.")
}

// Lift is of the basket of wet grain.
func Lift() message.Message {
	return message.New("A wet basket is heavy and drips scalding wort: a lift for two, or none.")
}

// BoilOver is of the hot break.
func BoilOver() message.Message {
	return message.New("It boils over in seconds: stay with it, heat back as the foam rises. Wort and steam scald.")
}

// HotVessel is of the wort after the boil.
func HotVessel() message.Message {
	return message.New("It still scalds at once. Never carry a full vessel.")
}

// Hose is of lines that hold hot wort.
func Hose() message.Message {
	return message.New("Never open a hose under pressure or near the boil.")
}

// CoolingWater is of what comes out of a chiller.
func CoolingWater() message.Message {
	return message.New("The cooling water comes back hot enough to scald.")
}

// Cleaner is of what cleans and sanitises.
func Cleaner() message.Message {
	return message.New("Cleaners are caustic or acid: gloves, eye protection, one at a time, never mixed.")
}

// CarbonDioxide is of every fermentation.
func CarbonDioxide() message.Message {
	return message.New("CO2 fills closed rooms: air them before going in.")
}

// HoneyFoam is of honey that goes into working beer.
func HoneyFoam() message.Message {
	return message.New("Honey in working beer foams over: leave room, little by little, an airlock that cannot block.")
}

// HoneyInfants is of all honey: spores of botulism outlive the boil.
func HoneyInfants() message.Message {
	return message.New("No honey for infants under twelve months, not even cooked; some people are allergic.")
}

// Glass is of bottles under pressure.
func Glass() message.Message {
	return message.New("Glass under pressure bursts and maims: equal readings days apart first, sound bottles made for it, none scratched; eye protection.")
}

// Keg is of kegs under pressure.
func Keg() message.Message {
	return message.New("Gas under pressure: the keg's rating, a regulator, a relief valve that works; air the room.")
}

// Alcohol is of the beer.
func Alcohol() message.Message {
	return message.New("It holds alcohol: age, driving, pregnancy as law and medical advice have it.")
}

// Brew is what the cautions of a whole brew hang on.
type Brew struct {
	LateHoney bool // goes into working beer
	Honey     bool // anywhere, as primer too
	Keg       bool
}

// Of are the cautions of a whole brew, in the order of the day; its steps have
// more.
func Of(b Brew) []message.Message {
	c := []message.Message{Scald(), Mains(), Lift(), BoilOver(), Cleaner(), CarbonDioxide()}
	if b.LateHoney {
		c = append(c, HoneyFoam())
	}
	if b.Honey {
		c = append(c, HoneyInfants())
	}
	if b.Keg {
		c = append(c, Keg())
	} else {
		c = append(c, Glass())
	}
	return append(c, Alcohol())
}
