/*
 * An invented session to begin from, with a line of most kinds.
 */

export const EXAMPLE = `Harbour squad, Thursday
pool 25 m
start 19:30
finish 20:30
lane 1 css 1:20, base 1:30, 5 swimmers
lane 2 css 1:28, 6 swimmers
lane 3 css 1:41, 4 swimmers, gap 10

Warm-up
6:00 choice
4 x 50 back and free by 25 @ base+10
talk 1:30 turns: push off under the waves

Pull
2 x 200/200/150 pull, buoy @ 3:20/3:40/3:10

Main set
3 rounds
  150 steady @ base
  4 x 50 fast @ 0:50/0:55/1:05 hold css-2
8/7/6 x 75 free rest 15

Swim-down
200 easy choice
`;
