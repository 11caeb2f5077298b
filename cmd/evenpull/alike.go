package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Figures that are computed again are the same when they differ by no more than this: as a
// share of the greater of them, or as they stand, since what is less is only rounding.
// Another processor rounds otherwise; on one that multiplies and adds at once, figures of
// the samples moved by up to 4e-11 of themselves, those of assigned springs by 5e-11. A derivative may move within the error that is told with it, by 6e-9 where a train is
// so even that another turn has the least torque on either side. Counts, of
// draws too, have to be the same: that a draw lies so near to a border that rounding takes
// it across happens less than once in a hundred thousand studies.
const sameWithin = 1e-9

// mostRounded is how many numbers of a page or a picture, of its thousands, may have been
// rounded to the next one in their last digit, which the figures themselves would hardly
// ever be near enough for.
const mostRounded = 3

// numberIn is a number in a text, with the minus of a page too.
var numberIn = regexp.MustCompile(`[-+−]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?`)

// otherwise tells where a text comes out otherwise than it was kept, "" where it does not.
// Only numbers of it are told. Those of a text that shows them rounded may be off by one in
// the last digit, a few of them.
func otherwise(kept, now []byte, rounded bool) string {
	if bytes.Equal(kept, now) {
		return ""
	}
	was, is := strings.Split(string(kept), "\n"), strings.Split(string(now), "\n")
	if len(was) != len(is) {
		return fmt.Sprintf("it had %d lines and has %d now", len(was), len(is))
	}
	off := 0
	for i := range was {
		if was[i] == is[i] {
			continue
		}
		a, b := numberIn.FindAllString(was[i], -1), numberIn.FindAllString(is[i], -1)
		if len(a) != len(b) || numberIn.ReplaceAllString(was[i], "0") != numberIn.ReplaceAllString(is[i], "0") {
			return fmt.Sprintf("line %d has other words now", i+1)
		}
		for k := range a {
			if sameFigure(a[k], b[k]) || !rounded && math.Abs(valueOf(a[k])-valueOf(b[k])) <= errorOf(is, i, k) {
				continue
			}
			if off++; !rounded || off > mostRounded || !neighbours(a[k], b[k]) {
				return fmt.Sprintf("line %d: %s was kept, and it is %s now", i+1, brief(a[k]), brief(b[k]))
			}
		}
	}
	return ""
}

// sameFigure tells whether two numbers are the same within sameWithin.
func sameFigure(a, b string) bool {
	x, y := valueOf(a), valueOf(b)
	return a == b || math.Abs(x-y) <= sameWithin*max(1, math.Abs(x), math.Abs(y))
}

// lineOfJSON is one with a key and its value.
var lineOfJSON = regexp.MustCompile(`^ *"(\w+)": ([^,]*)`)

// errorOf is the error that stands beside a number of a line, as x_error does beside x in JSON
// and CSV; of such an error itself, itself. 0 where there is none.
func errorOf(lines []string, i, number int) float64 {
	name, figures := "", map[string]string{}
	if line := lineOfJSON.FindStringSubmatch(lines[i]); line != nil {
		name = line[1]
		for _, l := range lines[max(i-1, 0):min(i+2, len(lines))] {
			if line := lineOfJSON.FindStringSubmatch(l); line != nil {
				figures[line[1]] = line[2]
			}
		}
	} else {
		header := slices.IndexFunc(lines, func(l string) bool { return !strings.HasPrefix(l, "# ") })
		names, fields := columnsOf(lines[max(header, 0)]), columnsOf(lines[i])
		for k := range min(len(names), len(fields)) {
			figures[names[k]] = fields[k]
			if number -= len(numberIn.FindAllString(fields[k], -1)); number < 0 && name == "" {
				name = names[k]
			}
		}
	}
	name = strings.TrimSuffix(name, "_error")
	if _, there := figures[name]; !there {
		return 0
	}
	return valueOf(figures[name+"_error"])
}

// columnsOf are the fields of a line of CSV; none where it is not one.
func columnsOf(line string) []string {
	fields, _ := csv.NewReader(strings.NewReader(line)).Read()
	return fields
}

// neighbours tells whether two numbers differ by no more than one in the last digit of the
// finer.
func neighbours(a, b string) bool {
	return math.Abs(valueOf(a)-valueOf(b)) <= 1.001*min(lastDigit(a), lastDigit(b))
}

// valueOf is the value of a number; one too large for a float is infinite.
func valueOf(s string) float64 {
	v, _ := strconv.ParseFloat(strings.Replace(s, "−", "-", 1), 64)
	return v
}

// lastDigit is what one in the last digit of a number is worth.
func lastDigit(s string) float64 {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(s), "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	power, _ := strconv.Atoi(exponent) // 0 for none
	return math.Pow10(power - len(decimals))
}

// brief is a number as messages show one that may be anybody's.
func brief(s string) string {
	const most = 25
	if len(s) > most {
		return s[:most] + "…"
	}
	return s
}
