// Package rub tells what friction between the coils and the true shape of the strip leave of
// the couple of the closed form, running down: a table over pure numbers, learned from springs
// that package coils solved coil by coil.
//
// # What is in it
//
// A spring is told by R/r, the radius of the barrel inside over that of the arbor; p/r, what a
// coil takes up over that; the share of the barrel that the coils fill; κy r, the curvature at
// which the strip flows times the radius of the arbor; p/h; the coefficient of friction μ; and
// whether its outer end is hooked or braced. Scale, modulus and width drop out.
//
// With t the turns from rest, N those available and Φ the angle from arbor to hook, the share
// of the closed form's couple that the strip gives running down is
//
//	q = Σ Si bi(t) + Σh Σ (Cih cos hΦ + Dih sin hΦ) bi(t)    h = 1, 2, 3
//
// bi are cubic B-splines of x = 4 t/tw up to tw, where the strip leaves the wall, and of
// 4 + 4 ln(1 + (t − tw)/0.7) beyond; and besides e^{(t−N)/0.4} and e^{−t/0.35}. Each C and D is a
// polynomial of the second degree in these numbers, each scaled to −1 to 1; each S, and how much
// tw is above that of the closed form, is one of the third, without p/h in that. The couple of a
// hooked strip, once its last coil is off the wall, swings by some 3 in 100 with every turn, as
// the coil next to the hook lies on the one side or the other.
//
// # How it was made
//
// Springs were drawn evenly from the ranges of the table (a sequence of M. Roberts, 2018; from
// memory), let run down from just below solid in steps of 0.14 turn, with 48 nodes to a turn,
// and are kept in testdata. The coefficients are the most likely ones where they are normal
// about 0 and what the table does not have is too (regularised least squares: A. E. Hoerl,
// R. W. Kennard, Technometrics 12, 1970; from memory). Tests hold the table against springs that
// it was not made of.
//
// # Limits
//
// From a tenth of the turns to 0.95 of them; outside them it is read at these. Springs that set,
// with R/r of 2.6 to 3.5, p/r of 0.043 to 0.08, 0.38 to 0.56 of the barrel filled, κy r of 0.18 to
// 0.38, p/h to 1.1, μ to 0.15, and not more than 12 turns: for others it is read at its edge, and
// Outside tells so; beyond μ of 0.15 losses go on as those of a rope about a post. The couple that
// winds the strip was not learned: it is taken to lie as far above what the strip gives without
// friction as running down lies below. Of springs not used to make the table, with μ to 0.12,
// every winding is within 1.5 % of what was solved. With more the coils stick, and jump when they
// come loose: there it is within 2.5 %, and Outside tells so too. See TestUnseen.
//
// A wound mainspring holds tens of joules and lets them go at once: whoever winds or lets down
// what was computed here does so with a winder and a let-down key, eyes and hands protected.
package rub
