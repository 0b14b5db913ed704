package personal

import (
	"fmt"
	"slices"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// choices has the choices that people typed for the person's crops, farm by farm, and what
// the person would be paid under them; nothing where none is typed.
func (r *reader) choices() (said []string) {
	typed, farms := map[string][]string{}, []string{}
	n := 0
	for _, l := range r.lines {
		if l.Typed == nil {
			continue
		}
		n++
		if typed[l.Farm] == nil {
			farms = append(farms, l.Farm)
		}
		typed[l.Farm] = append(typed[l.Farm], l.Commodity.Name()+" "+string(*l.Typed))
	}
	if n == 0 {
		return nil
	}
	if len(farms) > mostNamed {
		said = append(said, fmt.Sprintf("Choices typed here for %d: %d of your %d crops.", r.year.CropYear, n, len(r.lines)))
	}
	for _, key := range farms[:min(len(farms), mostNamed)] {
		if len(farms) <= mostNamed {
			said = append(said, fmt.Sprintf("Farm %s, choice typed here for %d: %s.", wording.Farm(key, r.year.Farms), r.year.CropYear, wording.Joined(typed[key])))
		}
	}
	if p := r.under(answer.TypedChoice); p != nil && p.Mean > 0 {
		text := fmt.Sprintf("Under the choices typed here you would be paid %s on average%s.", amount(p.MeanAfterLimit), middle(p))
		if crops := r.leftOut(answer.TypedChoice); len(crops) > 0 {
			text += " Not included: " + someOf(crops, len(r.lines)) + "."
		}
		said = append(said, text)
	}
	return said
}

// signed says on which farms the person's signature of the election is noted, and on which
// it is noted as not given; nothing where the file does not say.
func (r *reader) signed() (said []string) {
	farms, order := map[string][]string{}, []string{}
	for _, l := range r.lines {
		i := slices.IndexFunc(l.Signers, func(s answer.Signer) bool { return s.ID == r.id })
		state := wording.Signed(l.Signers[i])
		if state == wording.NotRecorded {
			continue
		}
		if farms[state] == nil {
			order = append(order, state)
		}
		if number := wording.Farm(l.Farm, r.year.Farms); !slices.Contains(farms[state], number) {
			farms[state] = append(farms[state], number)
		}
	}
	for _, state := range order {
		said = append(said, "Your signature on "+onlyFarms(farms[state])+": "+state+".")
	}
	return said
}
