package words

import (
	"cmp"

	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
)

// GiveHead tells how many of the trains want another spring, and how many get one.
func GiveHead(all choose.Shared) string {
	want, get := 0, 0
	for _, s := range all {
		if s.Wants() {
			want++
		}
		if s.Given != nil {
			get++
		}
	}
	return say("%s from one list: ", Count(len(all), "train")) + cmp.Or(
		where(want == 0, "none wants another spring"),
		where(get == want, "%d %s another spring, and the list has one for each, none given twice", want, Either(want > 1, "want", "wants")),
		say("%d %s another spring, and the list has one that suits for %d", want, Either(want > 1, "want", "wants"), get))
}

// Give tells what a train gets, and why.
func Give(s *choose.Share, shown func(rules.Code) string) string {
	name := s.Present.Digest.Name
	_, order := s.Suits()
	return cmp.Or(
		where(!s.Wants(), "%s", ChooseFirst(s.Study, shown)),
		where(s.Given != nil, "%s", given(s, shown)),
		where(order > 0, "%s train: what would suit it of this list is given to other trains", name),
		say("%s train: nothing of this list is to be ordered for it: %s", name, ChooseHead(s.Study, shown)))
}

func given(s *choose.Share, shown func(rules.Code) string) string {
	c := s.Given
	if c == nil {
		return ""
	}
	return say("%s train: %s %s%s", s.Present.Digest.Name, c.Label, DoesLoudly(c.Digest.Verdict.Code, shown), surely(&c.Digest)) +
		where(c.Rank > 1, "; number %d of the choice for it alone", c.Rank)
}

// GiveOrder is what is to be ordered for a train; "" for nothing.
func GiveOrder(s *choose.Share) string {
	if s.Given == nil {
		return ""
	}
	return ChooseOrder(s.Given)
}

// GiveCautions are those of the train with the strongest spring.
func GiveCautions(all choose.Shared) []string {
	var strongest *choose.Study
	most := -1.0
	for _, s := range all {
		if stored, _ := s.MostStored(); stored > most {
			most, strongest = stored, s.Study
		}
	}
	if strongest == nil {
		return nil
	}
	return ChooseCautions(strongest)
}
