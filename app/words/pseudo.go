package words

import (
	"strings"

	"golang.org/x/text/language"

	"skep/calc/message"
)

// Pseudo is a language that nobody speaks (CLDR's pseudo-locale): English with
// an accent on every letter and 40 % longer. A plain letter on a screen is a
// text that no language will reach; a text cut off will be cut off in German.
var Pseudo = language.MustParse("en-XA")

const (
	plainLetters    = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
	accentedLetters = "áƀçđéƒĝĥíĵķĺɱñóƥɋŕšŧúṽŵẋýžÁƁÇĐÉƑĜĤÍĴĶĹṀÑÓƤɊŔŠŦÚṼŴẊÝŽ"
)

var accents = func() *strings.Replacer {
	var pairs []string
	to := []rune(accentedLetters)
	for i, r := range plainLetters {
		pairs = append(pairs, string(r), string(to[i]))
	}
	return strings.NewReplacer(pairs...)
}()

// pseudo is a text in the pseudo-language; the places stay as they are.
func pseudo(text string) string {
	var b strings.Builder
	letters := 0
	message.Pieces(text, func(t string) {
		letters += len(t)
		b.WriteString(accents.Replace(t))
	}, func(name string) { b.WriteString("{" + name + "}") })
	out := b.String()
	longer := (letters*2 + 4) / 5
	if letters < 2 {
		return out
	}
	// What is added stands within the text: a text that ends in a mark keeps it.
	end := len(strings.TrimRight(out, " .:;,!?…"))
	var more strings.Builder
	for i := range longer {
		if i%7 == 6 && i+1 < longer {
			more.WriteByte(' ')
		} else {
			more.WriteString("ö")
		}
	}
	return out[:end] + more.String() + out[end:]
}
