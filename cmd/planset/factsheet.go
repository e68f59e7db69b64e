package main

import (
	"planset/model"
	"planset/model/cutting"
)

// factSheet is the object of facts --json. Its keys are a contract.
type factSheet struct {
	Title     string             `json:"title"`
	Variant   string             `json:"variant"`
	Units     string             `json:"units"`
	Measures  map[string]float64 `json:"measures"`
	Parts     []partFact         `json:"parts"`
	Placed    []placedFact       `json:"placed"`
	Hardware  []hardwareFact     `json:"hardware"`
	Boards    []boardFact        `json:"boards"`
	Buying    []buyFact          `json:"buying"`
	Bound     boundFact          `json:"bound"`
	Templates []templateFact     `json:"templates"`
	Sheets    []sheetFact        `json:"sheets"`
	Findings  []findingFact      `json:"findings"`

	plan *model.Plan
	cuts *cutting.Plan
}

type partFact struct {
	Code        string     `json:"code"`
	Name        string     `json:"name"`
	Quantity    int        `json:"quantity"`
	Hand        string     `json:"hand"`
	Stock       string     `json:"stock"`
	Thickness   float64    `json:"thickness"`
	Width       float64    `json:"width"`
	Length      float64    `json:"length"`
	RoughLength float64    `json:"rough_length"`
	RoughWidth  float64    `json:"rough_width"`
	Mass        float64    `json:"mass"`
	Template    bool       `json:"template"`
	Holes       []holeFact `json:"holes"`
}

type holeFact struct {
	Name     string  `json:"name"`
	Along    float64 `json:"along"`
	Across   float64 `json:"across"`
	Diameter float64 `json:"diameter"`
	Matched  bool    `json:"matched"`
}

type placedFact struct {
	Code   string     `json:"code"`
	Name   string     `json:"name"`
	Hand   string     `json:"hand"`
	Origin [3]float64 `json:"origin"`
	Along  [3]float64 `json:"along"`
	Across [3]float64 `json:"across"`
	Thick  [3]float64 `json:"thick"`
}

type hardwareFact struct {
	Name     string  `json:"name"`
	Size     string  `json:"size"`
	Length   float64 `json:"length"`
	Quantity int     `json:"quantity"`
	Buy      int     `json:"buy"`
}

// A boardFact is a board with its pieces. OnHand and Name are told of boards
// that need not be bought.
type boardFact struct {
	Stock  string      `json:"stock"`
	Length float64     `json:"length"`
	Cost   float64     `json:"cost"`
	OnHand bool        `json:"on_hand,omitempty"`
	Name   string      `json:"name,omitempty"`
	Pieces []pieceFact `json:"pieces"`
}

type pieceFact struct {
	Code   string  `json:"code"`
	Along  float64 `json:"along"`
	Across float64 `json:"across"`
	Length float64 `json:"length"`
	Width  float64 `json:"width"`
	Spare  bool    `json:"spare,omitempty"`
	Pair   int     `json:"pair,omitempty"`   // pieces of one board with the same number share a blank, head to tail
	Turned bool    `json:"turned,omitempty"` // lies with its far end to the left
}

type buyFact struct {
	Stock    string  `json:"stock"`
	Length   float64 `json:"length"`
	Quantity int     `json:"quantity"`
	Cost     float64 `json:"cost"`
}

type boundFact struct {
	Cost   float64 `json:"cost"`
	Proved bool    `json:"proved"`
}

type templateFact struct {
	Code    string         `json:"code"`
	Outline [][2]float64   `json:"outline"`
	Holes   []templateHole `json:"holes"`
	Tiles   []tileFact     `json:"tiles"`
}

type templateHole struct {
	X        float64 `json:"x"`
	Y        float64 `json:"y"`
	Diameter float64 `json:"diameter"`
}

type tileFact struct {
	Paper  string     `json:"paper"`
	Page   int        `json:"page"`
	Row    int        `json:"row"`
	Column int        `json:"column"`
	Window [4]float64 `json:"window"`
	At     [2]float64 `json:"at"`
}

type sheetFact struct {
	Paper string `json:"paper"`
	Page  int    `json:"page"`
	Title string `json:"title"`
}

type findingFact struct {
	Rule     string   `json:"rule"`
	Severity string   `json:"severity"`
	Parts    []string `json:"parts"`
	Value    float64  `json:"value"`
	Limit    float64  `json:"limit"`
	Unit     string   `json:"unit"`
	Text     string   `json:"text"`
	Fix      string   `json:"fix"`
	Waived   bool     `json:"waived"`
}
