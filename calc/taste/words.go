package taste

import (
	"math"

	"skep/calc/message"
)

// An index exactly at the first bound ("below 20 sweet") takes the word above
// it, exactly at any other ("to 40 rounded") the word below it.

// DrynessWord: below 20 sweet, to 40 rounded, to 60 balanced, to 80 dry, above
// very dry. Empty for what is no number.
func DrynessWord(index float64) string {
	switch {
	case math.IsNaN(index):
		return ""
	case index < 20:
		return "sweet"
	case index <= 40:
		return "rounded"
	case index <= 60:
		return "balanced"
	case index <= 80:
		return "dry"
	}
	return "very dry"
}

// BodyWord: below 33 light, to 66 medium, above full.
func BodyWord(index float64) string { return three(index, "light", "medium", "full") }

// CharacterWord: below 33 low, to 66 medium, above high.
func CharacterWord(index float64) string { return three(index, "low", "medium", "high") }

func three(index float64, low, medium, high string) string {
	switch {
	case math.IsNaN(index):
		return ""
	case index < 33:
		return low
	case index <= 66:
		return medium
	}
	return high
}

// CharacterWordOf is a word of the honey's character as a person reads it. None is one
// of body's: other languages have genders, and one text has one.
func CharacterWordOf(word string) message.Message {
	if word == "medium" {
		return message.New("moderate")
	}
	return WordOf(word)
}

// WordOf is one of the words of dryness and body as a person reads it.
func WordOf(word string) message.Message {
	switch word {
	case "":
		return message.Message{}
	case "sweet":
		return message.New("sweet")
	case "rounded":
		return message.New("rounded")
	case "balanced":
		return message.New("balanced")
	case "dry":
		return message.New("dry")
	case "very dry":
		return message.New("very dry")
	case "light":
		return message.New("light")
	case "medium":
		return message.New("medium")
	case "full":
		return message.New("full")
	case "low":
		return message.New("low")
	case "high":
		return message.New("high")
	}
	return message.Plain(word)
}
