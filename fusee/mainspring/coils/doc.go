// Package coils computes a spiral spring in its barrel coil by coil: the strip as one curve.
package coils
