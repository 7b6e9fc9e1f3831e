package design

import (
	"strings"

	"skep/calc/message"
)

// WordOf is a word of the design file as a person reads it. Whatever is
// no word of the format, such as a name, stays as it is.
func WordOf(path, word string) message.Message {
	key := path[strings.LastIndexByte(path, '.')+1:]
	switch key + " " + word {
	case "enzymes own":
		return message.New("base malt")
	case "enzymes none":
		return message.New("no enzymes")
	case "enzymes borrowed":
		return message.New("raw grain")
	case "form dry":
		return message.New("dried")
	case "form liquid":
		return message.New("liquid")
	case "form slurry":
		return message.New("slurry")
	case "moment boil", "when boil":
		return message.New("boil")
	case "moment whirlpool", "when whirlpool":
		return message.New("whirlpool")
	case "moment pitching":
		return message.New("pitching")
	case "moment fermenting":
		return message.New("fermenting")
	case "vessel bottle":
		return message.New("bottles")
	case "vessel keg":
		return message.New("keg")
	case "primer table sugar":
		return message.New("table sugar")
	case "primer dextrose":
		return message.New("dextrose")
	case "primer honey":
		return message.New("honey")
	case "primer none":
		return message.New("none")
	case "raw true":
		return message.New("raw")
	case "raw false":
		return message.New("heated")
	case "eats_dextrin true":
		return message.New("eats dextrin")
	case "eats_dextrin false":
		return message.New("leaves dextrin")
	case "acid lactic 80 %":
		return message.New("lactic acid, 80 %")
	case "acid lactic 88 %":
		return message.New("lactic acid, 88 %")
	case "acid phosphoric 10 %":
		return message.New("phosphoric acid, 10 %")
	case "acid phosphoric 75 %":
		return message.New("phosphoric acid, 75 %")
	case "acid phosphoric 85 %":
		return message.New("phosphoric acid, 85 %")
	case "by_eye too-coarse":
		return message.New("too coarse")
	case "by_eye coarse":
		return message.New("coarse")
	case "by_eye sound":
		return message.New("sound")
	case "by_eye fine":
		return message.New("fine")
	case "by_eye too-fine":
		return message.New("too fine")
	}
	return message.Plain(word)
}
