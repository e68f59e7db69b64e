// Package render holds finished pages: every item has its place and its look.
//
// It knows pens, type and where things lie on paper. It does not know furniture,
// and it does not paint; the painters below it do.
package render

import (
	"planset/fonts"
	"planset/model/geom"
)

// A Book is a finished document.
type Book struct {
	Title, Author, Subject, Keywords string
	Lang                             string // "en-US"
	Date                             string // of the edition, YYYY-MM-DD; goes into the metadata
	Seed                             string // the text the book was made from; the file's identity is hashed from it
	Pages                            []Page
	Marks                            []Mark
}

// A Mark is one bookmark.
type Mark struct {
	Title string
	Level int // 0 is the top
	Page  int // index into Pages
	Y     float64
}

// A Page is one finished sheet. Positions are millimetres from its lower-left
// corner, y up.
type Page struct {
	Name  string // page label: "7", "T-3"
	Title string
	Size  geom.Size
	Items []Item
}

// An Item is one of Stroke, Fill, Text, Link, Image or Group.
type Item interface{ item() }

// A Path is a run of joined segments.
type Path struct {
	Segs   []geom.Seg
	Closed bool
}

// A Stroke is lines drawn with a pen.
type Stroke struct {
	Paths []Path
	Pen   Pen
}

// A Fill is closed paths filled with a tone; insides by the even-odd rule.
type Fill struct {
	Paths []Path
	Tone  Tone
}

// A Text is one run of letters on a baseline. It is never broken or wrapped.
type Text struct {
	At    geom.Pt // baseline, at the left, middle or right by Align
	Text  string
	Face  fonts.Face
	Size  float64 // points
	Align Align
	Angle float64 // radians anticlockwise about At
	Tone  Tone
}

// A Link is a rectangle that leads to a page of the book, or to an address.
type Link struct {
	Box  geom.Box
	Page int // index into Pages; used when Addr is empty
	Addr string
}

// An Image is a PNG in a box.
type Image struct {
	Box geom.Box
	PNG []byte
}

// A Group is items that belong together, with a name for tests, and a clip when
// Clip is not empty. Reads is what the letters and drawn signs in it say as a
// whole, for readers that search or speak a page; empty means each for itself.
type Group struct {
	Name  string
	Reads string
	Clip  geom.Box
	Items []Item
}

func (Stroke) item() {}
func (Fill) item()   {}
func (Text) item()   {}
func (Link) item()   {}
func (Image) item()  {}
func (Group) item()  {}

// An Align says which point of a text At is.
type Align int8

// The alignments.
const (
	Left Align = iota
	Middle
	Right
)
