// Package sim runs a clock down and judges it.
//
// RunClock takes a checked scenario (package scenario; package scenarios has samples) and
// gives a Result for each of its trains: the rows of the run-down, and a Digest with the
// verdict. Compile stops half way: one Train per train, in SI and ready to run. All that a
// run-down depends on is a plain field of it, so a what-if is a copy with a field changed.
// Who asks for many runs is served by package vary, and who asks a question of the bench by
// the packages below sim/study and sim/bench.
//
// # Terms
//
//	train number  the place of a train in its scenario, from 0
//	KEY           names a number of a scenario: going.mainspring.thickness_mm
//	fusee turns   θ, paid out: 0 fully wound, n run down
//	spring turns  φ, wound up from rest, where the let-down spring gives no couple
//	strip         the mainspring as a band of steel
//	couple        what it turns the barrel with, N·m
//	home, solid   with all coils packed on the arbor: the spring cannot be wound further and binds
//	packing       the room that a coil takes up over its thickness, a pure number
//	fill          the share of the barrel's free area that the strip takes up
//	free coils    those that the spring shows lying free, out of its barrel
//	flow stress   that from which its steel bends for good, Pa
//	set-up        the spring turns left when the fusee has run down
//	to spare      of spring turns: left up to home when the fusee is wound
//	even          of a cone: cut so that the torque stays the same over the run
//	run-down      one run of the fusee from wound to run down
//	square        the end of the fusee arbor that the winding key fits
//	torque        N·m at the fusee arbor after every loss up to it
//	need          the least torque on which the train goes or strikes, every load on
//	reserve       torque over need, a pure number
//	unevenness    (greatest − least)/mean of the torque over the run, a pure number
//	rate          T0/T − 1: T the period, T0 that of a small undamped swing; 1 s a day is 1/86400
//	verdict       stops, thin, suits, strong or overdriven, by package rules
//	fault         what does not fit or is unsafe, whatever the verdict
//	error         how far an input may be off: its tolerance, else what is usual of a reading
//	draw          a run with every input somewhere within its error, at random
//	what-if       a run with some values changed, by package vary
//	sureness      the share of draws of the inputs within their errors that end in the verdict
//
// # Method and limits
//
// A run is worked out at each fusee turn by itself: the couple of the spring (package
// mainspring), the torque at the fusee (package fusee), what the wheels bring to the last
// arbor and what a strike makes of it (package train), the arc and rate of the pendulum
// (package escapement). The drive is taken as slow against the beats, so that arc and rate are
// those that the torque of the turn would settle to; a clock that stopped stays so. What each
// step leaves out stands in its package.
//
// Least, greatest and spread of a run are taken at every quarter turn whatever rows are asked
// for; the mean torque is exact, or to 1e-6 of itself with the pivots of the fusee, from the
// energy of the spring. What is not known, or does not apply, is NaN. Sources stand where an
// equation is; limits of judgement and advice are in package rules and mostly common practice.
//
// A Train is a value: each goroutine may run a copy of its own. A Result is of one run.
//
// A spring that suits by these figures is still to be taken out, fitted and wound with a
// winder and a let-down key, eyes and hands protected: a wound mainspring lets go of tens of
// joules at once.
//
// # What may be relied on
//
// Versions are MAJOR.MINOR.PATCH as evenpull version tells, by the rules of Semantic
// Versioning 2.0.0. From 1.0.0 on, while MAJOR stays:
//
//   - Files: a scenario, bench book or stock list that is accepted stays so and means the
//     same. Keys and units are only added. But a MINOR may refuse what no clock can be, and
//     take another usual value for what a file leaves out.
//   - Commands: names, flags, KEYs and exit status stay; more are added.
//   - JSON and CSV: names, nesting, units and meaning of members and columns stay, and so do
//     the names of figures; more are added, so pass over what you do not know. The schemas of
//     evenpull schema hold for the version that prints them.
//   - Go: exported names of fusee, fusee/mainspring, train, escapement, sim, sim/scenario,
//     sim/outcome and scenarios stay, with what their comments say. Structs get more fields
//     and interfaces that cannot be implemented elsewhere more methods, so name the fields of
//     a literal. The other packages may change with a MINOR; package seen and all below
//     internal and cmd with any version.
//   - Figures: the same version gives the same figures for the same input and seed, on any
//     number of cores; on another kind of processor they may differ in the last digits. A
//     PATCH changes them only to mend what was wrong, a MINOR also where the model gets nearer
//     to the clock.
//
// Nothing is promised of the wording of sentences, the layout of text and pages, the look and
// the bytes of pictures, the order of JSON members, or times. Before 1.0.0 all of it may
// change with a MINOR.
package sim
