package command

// schemaOne marks a JSON object with the number of its form: a change that could
// break a reader raises it.
type schemaOne struct {
	Schema int `json:"schema"`
}

var one = schemaOne{1}
