package since

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"fencerow/io/batch/kept"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Last is an earlier answer with the inputs it rests on.
type Last struct {
	name    string
	answer  lastAnswer
	inputs  answer.Inputs
	figures kept.Figures
}

// lastAnswer is what is read of the JSON of an answer. Figures stay as they are written.
type lastAnswer struct {
	Format    string            `json:"format"`
	Today     string            `json:"today"`
	Seed      uint64            `json:"seed"`
	Draws     int               `json:"draws"`
	Market    answer.MarketDate `json:"market"`
	Model     answer.Model      `json:"model"`
	CropYears []struct {
		CropYear crop.CropYear `json:"crop_year"`
		Farms    []struct {
			Farm        string `json:"farm"`
			Commodities []struct {
				Commodity  crop.Commodity `json:"commodity"`
				BaseAcres  json.Number    `json:"base_acres"`
				Leader     string         `json:"leader"`
				Difference *struct {
					Mean json.Number `json:"mean"`
				} `json:"difference"`
				Programs map[farm.Program]*struct {
					Mean json.Number `json:"mean"`
				} `json:"programs"`
			} `json:"commodities"`
		} `json:"farms"`
	} `json:"crop_years"`
	Inputs *answer.Inputs `json:"inputs"`
}

// keepAnother is what to do where an answer cannot be compared with.
const keepAnother = "name a file that fencerow compare --json printed; keep today's answer for the next time"

// Read reads the JSON of an earlier answer. The error is farm.Mistakes where the text is no
// answer, is one of another format, or does not hold its inputs.
func Read(name string, text []byte) (*Last, error) {
	last := &Last{name: name}
	var format struct {
		Format string `json:"format"`
	}
	if err := json.Unmarshal(text, &format); err != nil {
		return nil, last.broken(text, err)
	}
	switch {
	case !strings.HasPrefix(format.Format, "fencerow/"):
		return nil, last.mistake("is no answer of fencerow: it has no format", keepAnother)
	case format.Format != answer.ComparisonFormat:
		return nil, last.mistake(fmt.Sprintf("has the format %q, and this version of fencerow reads %s", format.Format, answer.ComparisonFormat), keepAnother)
	}
	if err := json.Unmarshal(text, &last.answer); err != nil {
		return nil, last.broken(text, err)
	}
	in := last.answer.Inputs
	switch {
	case in == nil:
		return nil, last.mistake("does not hold the inputs of its answer (the key inputs)", "it is of an older version: run compare --json again with the files of that day")
	case in.Format != inputsFormat:
		return nil, last.mistake(fmt.Sprintf("holds inputs of the format %q, and this version of fencerow reads %s", in.Format, inputsFormat), keepAnother)
	}
	last.inputs = *in
	var err error
	if last.figures, err = unpacked(in.Figures); err != nil {
		return nil, last.mistake("its key inputs.figures cannot be read: "+err.Error(), keepAnother)
	}
	return last, nil
}

// mistake is one mistake of the file.
func (l *Last) mistake(reason, hint string) farm.Mistakes {
	return farm.Mistakes{{File: l.name, Reason: reason, Hint: hint}}
}

// broken is the mistake of a text that is no JSON, with its line where that is known.
func (l *Last) broken(text []byte, err error) farm.Mistakes {
	found := l.mistake("cannot be read as JSON: "+err.Error(), keepAnother)
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	at := int64(0)
	switch {
	case errors.As(err, &syntax):
		at = syntax.Offset
	case errors.As(err, &kind):
		at = kind.Offset
	}
	if at > 0 && at <= int64(len(text)) {
		found[0].Line = 1 + bytes.Count(text[:at], []byte("\n"))
	}
	return found
}
