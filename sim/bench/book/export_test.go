package book

// Right is a sound book of the sample three-trains, invented.
const Right = `title = "Mistakes"
[letter]
workshop = "A workshop"
date = "2024-06-01"
[[weights]]
train = "going"
pulley_radius_mm = 75.0
cord_thickness_mm = 1.0
trials = [ { mass_g = 440.0, runs = false }, { mass_g = 460.0, runs = true } ]
[[weights]]
train = "striking"
pulley_radius_mm = 75.0
trials = [ { mass_g = 320.0, runs = false }, { mass_g = 450.0, judged = "weak" }, { mass_g = 600.0, judged = "liked" }, { mass_g = 950.0, judged = "brisk" } ]
[[spring]]
label = "A"
thickness_mm = 0.40
width_mm = 36.0
[[torque]]
train = "going"
spring = "A"
running_down = [ [0.463, 0.455, 0.452, 0.451, 0.449, 0.452, 0.45, 0.451, 0.452, 0.453, 0.449, 0.45, 0.451, 0.449, 0.448, 0.45, 0.451],
  [0.460, 0.456, 0.453, 0.450, 0.448, 0.451, 0.45, 0.452, 0.453, 0.451, 0.448, 0.45, 0.452, 0.449, 0.447, 0.45, 0.452] ]
meter_relative = 0.01
`
