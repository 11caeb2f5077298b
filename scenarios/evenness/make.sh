#!/bin/sh
# How uneven the torque of a fusee becomes when the strip is of another thickness, the
# set-up another, or the cone not the even one: three going trains, invented for this, of
# 0.30, 0.38 and 0.48 mm strip, the middle one also with a straight cone. Run it in a folder
# of its own with the .toml and .csv files beside it:
#
#   sh make.sh
#
# It writes evenness.html, the study to read and to print, and evenness-data, from which
# "evenpull report --verify evenness-data" makes every figure again.
set -eu
mkdir -p parts
evenpull sweep small.toml  --of fusee_torque_nm.unevenness --over going.mainspring.thickness_mm --from 0.27  --to 0.33  --steps 25 --against going.barrel.set_up_turns --from2 0.25 --to2 1.75 --steps2 19 --width 108mm --no-title --force --data parts/thickness_and_set-up_of_the_small_train > parts/1.txt
evenpull sweep middle.toml --of fusee_torque_nm.unevenness --over going.mainspring.thickness_mm --from 0.342 --to 0.418 --steps 25 --against going.barrel.set_up_turns --from2 0.5  --to2 2    --steps2 19 --width 108mm --no-title --force --data parts/thickness_and_set-up_of_the_middle_train > parts/2.txt
evenpull sweep large.toml  --of fusee_torque_nm.unevenness --over going.mainspring.thickness_mm --from 0.432 --to 0.528 --steps 25 --against going.barrel.set_up_turns --from2 0.75 --to2 2.25 --steps2 19 --width 108mm --no-title --force --data parts/thickness_and_set-up_of_the_large_train > parts/3.txt
evenpull sweep middle-straight.toml --of fusee_torque_nm.unevenness --over going.fusee.small_diameter_mm --from 9 --to 18 --steps 37 --against going.fusee.large_diameter_mm --from2 20 --to2 34 --steps2 29 --width 108mm --no-title --force --data parts/straight_cones_in_place_of_the_even_one > parts/4.txt
evenpull spread middle.toml --of fusee_torque_nm.unevenness --width 108mm --no-title --force --data parts/one_batch_of_clocks_like_the_middle_train > parts/5.txt
evenpull batch family.csv middle.toml --train going --of fusee_torque_nm.unevenness --of fusee_torque_nm.mean --of reserve.min --force --data parts/the_family_in_one_table
evenpull report middle.toml small.toml large.toml middle-straight.toml \
  --study parts/thickness_and_set-up_of_the_small_train --study parts/thickness_and_set-up_of_the_middle_train \
  --study parts/thickness_and_set-up_of_the_large_train --study parts/straight_cones_in_place_of_the_even_one \
  --study parts/one_batch_of_clocks_like_the_middle_train --study parts/the_family_in_one_table \
  --out evenness.html --force --data evenness-data
