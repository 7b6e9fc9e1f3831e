package quantity

import (
	"time"

	"skep/calc/message"
)

// Weekday is a day of the week in three letters.
func Weekday(d time.Weekday) message.Message {
	return [...]message.Message{
		message.New("Sun"), message.New("Mon"), message.New("Tue"), message.New("Wed"),
		message.New("Thu"), message.New("Fri"), message.New("Sat"),
	}[d]
}
