/*
 * The notation by examples, each of which can be put into a text: what is shown here is read by the tests as a session is.
 */

export interface NotationEntry {
  /** One line each, or several with what stands indented below. */
  readonly examples: readonly string[];
  readonly means: string;
}

export interface NotationGroup {
  readonly title: string;
  readonly entries: readonly NotationEntry[];
}

/** `lanes`: the numbers of the session's lanes, for whom lists are written. */
export function notationGroups(lanes: readonly number[]): readonly NotationGroup[] {
  return [
    { title: 'The lines of a set', entries: SETS },
    { title: 'Lanes that swim different things', entries: laneEntries(lanes) },
    { title: 'Intervals, rests and targets', entries: TIMING },
    { title: 'Rounds, times and pauses', entries: SHAPES },
    { title: 'Settings, before the first heading', entries: SETTINGS },
    { title: 'The text itself', entries: TEXT },
  ];
}

const SETS: readonly NotationEntry[] = [
  {
    examples: ['8 x 75 free, odds fast @ 1:20', '4 x 50 back on 1:20'],
    means: 'Count, distance, words, interval: from one leave to the next. On says the same as @.',
  },
  { examples: ['150 steady @ 2:40'], means: 'A count of 1 may be left out.' },
  { examples: ['100-200-300-200-100 @ base'], means: 'A ladder: one rep of each.' },
  { examples: ['300 easy'], means: 'No interval: swum through, ends on your word. Its length is an estimate.' },
];

const TIMING: readonly NotationEntry[] = [
  {
    examples: ['4 x 100 steady @ base', '4 x 100 easy @ base+10', '4 x 100 brisk @ base-5'],
    means: 'Each lane’s base for the distance, so many seconds more or less a rep, rounded up to the grid.',
  },
  { examples: ['6 x 100 threshold @ css+10'], means: 'The same by each lane’s CSS. A lane without one has a fault.' },
  { examples: ['6 x 75 free rest 15'], means: 'The expected swim time plus this rest: an estimate.' },
  {
    examples: ['5 x 100 @ 2:00 drop 5', '5 x 100 @ 1:40 add 5'],
    means: 'Each interval 5 s shorter, or longer, than the one before.',
  },
  { examples: ['4 x 100 @ 1:45, 1:40, 1:35, 1:30'], means: 'One interval a rep, with commas between.' },
  {
    examples: ['8 x 50 free odds fast @ 1:00, evens easy rest 20'],
    means: 'Odd and even reps, each with an interval or rest, words and a target of their own.',
  },
  {
    examples: ['6 x 100 free @ 2:00 hold 1:20', '6 x 100 free @ 2:00 hold css', '6 x 100 free @ 2:00 hold css+3'],
    means: 'A target for each rep; with css a pace per 100, scaled to the distance.',
  },
];

const SHAPES: readonly NotationEntry[] = [
  {
    examples: ['3 rounds\n  150 steady @ base\n  4 x 50 fast @ 1:10'],
    means: 'The lines indented below repeat; rounds may stand in rounds.',
  },
  { examples: ['3 x 4 x 50 free @ 1:10'], means: 'Three rounds of 4 x 50, on one line.' },
  { examples: ['20:00 of 100s free @ base'], means: 'As many reps as fit; the line takes exactly that time.' },
  { examples: ['15:00 easy swim'], means: 'A swim by time.' },
  { examples: ['talk 1:30 words'], means: 'Nobody swims; what follows waits for your word.' },
  {
    examples: ['break 2:00 words', 'rest 1:00 words'],
    means: 'Nobody swims; what follows in the part starts by itself.',
  },
  {
    examples: ['3 rounds\n  4 x 50 fast @ 1:10\n  rest 1:00 between rounds'],
    means: 'A rest between rounds stands under them, indented like their sets.',
  },
  {
    examples: ['note: mind the hands', 'kit: paddles'],
    means: 'Nobody waits. This window shows it while what follows is swum; the wall shows the kit too.',
  },
];

const SETTINGS: readonly NotationEntry[] = [
  { examples: ['pool 25 m', 'pool 33.33 m', 'pool 25 yd'], means: 'The pool’s length. Without it 25 m.' },
  {
    examples: ['start 19:30', 'finish 20:30', 'start 7:30-8:30 pm'],
    means: 'The booked hour, on 24 hours or with am or pm. With both, you see what runs over and what to cut.',
  },
  {
    examples: ['lane 3 base 1:40, css 1:30, 6 swimmers, gap 10', 'lane 4 css 1:41, Ana, Bram, Chidi'],
    means: 'A lane: base is its comfortable interval per 100, css its critical swim speed. Names in place of a number.',
  },
  { examples: ['gap 5'], means: 'Seconds between the swimmers of a lane. Without it 5.' },
  {
    examples: ['between 1:00', 'between auto 0:45'],
    means: 'Planned time between parts; with auto the next part starts by itself. Without it 1:00, by hand.',
  },
  { examples: ['start on 5'], means: 'Starts fall on multiples of 1, 5, 10, 15, 30 or 60 s of the pool’s clock.' },
  { examples: ['grid 5'], means: 'Intervals worked out from a pace are rounded up to 1, 5 or 10 s.' },
];

const TEXT: readonly NotationEntry[] = [
  { examples: ['Main set'], means: 'A line of words alone is a heading: a part begins. The first is the title.' },
  { examples: ['# not for the wall'], means: 'A comment: it is not read.' },
  {
    examples: [],
    means:
      'Enter after rounds indents the next line; Enter on an empty line goes back out. Tab and Shift+Tab indent the line, or those you chose. To leave the text by keys: Escape, then Tab.',
  },
];

function laneEntries(lanes: readonly number[]): readonly NotationEntry[] {
  const each = (value: (index: number) => string): string => lanes.map((_, index) => value(index)).join('/');
  const interval = (index: number): string => timeText(90 + 10 * index);
  const [first, last] = [lanes[0]!, lanes[lanes.length - 1]!];
  const some = lanes.length > 1 ? `lanes ${first}-${last}` : `lane ${first}`;
  return [
    {
      examples: [`${each((index) => `${Math.max(1, 8 - index)}`)} x 100 @ ${each(interval)}`],
      means:
        'One value a lane, in lane order: for counts, distances, intervals, rests and targets. A count of 0 sits out.',
    },
    {
      examples: [`${some}: 10 x 100 @ 2:20`, `lane ${last}: 4 x 50 easy @ 1:30`],
      means: 'A line for these lanes only; the others go on with what comes next.',
    },
  ];
}

function timeText(seconds: number): string {
  return `${Math.floor(seconds / 60)}:${`${seconds % 60}`.padStart(2, '0')}`;
}

/** The entries that have all these words. */
export function findEntries(groups: readonly NotationGroup[], words: string): readonly NotationGroup[] {
  const wanted = words
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  return groups
    .map(({ title, entries }) => ({
      title,
      entries: entries.filter(({ examples, means }) => {
        const text = [title, ...examples, means].join(' ').toLowerCase();
        return wanted.every((word) => text.includes(word));
      }),
    }))
    .filter(({ entries }) => entries.length > 0);
}
