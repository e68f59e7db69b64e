package model

import "strings"

// Spoken writes a key of the model as a reader would say it: "seat_slat" is
// "seat slat". Nothing a buyer reads shows a key as it is written.
func Spoken(key string) string { return strings.ReplaceAll(key, "_", " ") }
