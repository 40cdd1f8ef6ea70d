/*
 * Invented sessions to start from, each of another kind.
 */

import { EXAMPLE } from '../../write/example.ts';

export interface Sample {
  readonly name: string;
  readonly about: string;
  readonly text: string;
}

export const SAMPLES: readonly Sample[] = [
  { name: 'Harbour squad, Thursday', about: 'three lanes, a booked hour, a line of most kinds', text: EXAMPLE },
  {
    name: 'Sprint and turns',
    about: 'one lane, much rest, intervals that get shorter',
    text: `Sprint and turns
pool 25 m
lane 1 base 1:40, 4 swimmers, gap 10

Warm-up
400 easy choice
4 x 50 build to fast @ 1:10

Turns
talk 1:00 tight tuck, push off before you look
8 x 25 into and out of the wall @ 0:45

Main set
6 x 50 fast @ 2:00 drop 5
break 2:00 drink
4 x 25 all out rest 40

Swim-down
200 easy
`,
  },
  {
    name: 'Threshold, two lanes',
    about: 'targets from each lane’s CSS',
    text: `Threshold, two lanes
pool 25 m
start 6:30
finish 7:30
lane 1 css 1:25, 4 swimmers
lane 2 css 1:40, 4 swimmers

Warm-up
8:00 choice
4 x 100 drill and swim by 25 rest 20

Main set
2 rounds
  5 x 200/150 steady rest 20 hold css+2
  100 easy @ base+20

Swim-down
5:00 easy
`,
  },
];
