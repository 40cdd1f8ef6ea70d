/*
 * Random session texts: valid ones in every form of line, spelt as freely as coaches spell, and
 * spoilt ones. The random numbers are handed in, so a seed gives the same texts again.
 */

/** From 0 (included) to 1. */
export type Random = () => number;

/** A small seeded generator, good enough to choose lines. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

interface Draw {
  readonly random: Random;
  readonly lanes: readonly { readonly css: boolean }[];
  readonly length: number;
  readonly unit: 'm' | 'yd';
}

const WORDS = [
  'free',
  'Kick',
  'drill',
  'easy',
  'choice',
  'IM',
  'steady',
  'fast',
  'pull, buoy',
  'odds fast',
  'by 25',
  'ÉTÉ',
];
const HEADINGS = ['Warm-up', 'Drills', 'Pull:', 'Main set', 'Swim-down', 'Second half', 'Kick', 'Sprints 2'];
const FIRST_NAMES = ['Ana', 'Bram', 'Chidi', 'Dora', 'Emil', 'Fay'];

/** A valid session of up to so many parts. */
export function validSession(random: Random, mostParts = 4): string {
  const unit = chance(random, 0.2) ? 'yd' : 'm';
  const length = pick(random, [25, 50, 20, 33.33]);
  const lanes = Array.from({ length: whole(random, 1, 6) }, () => ({ css: chance(random, 0.6) }));
  const draw: Draw = { random, lanes, length, unit };
  const lines = [...header(draw)];
  if (chance(random, 0.5)) lines.push('First part');
  // Talks alone would be nothing to swim.
  lines.push(...partLines(draw, ''), '100 easy');
  for (let part = whole(random, 0, mostParts); part > 0; part -= 1) {
    lines.push(
      pick(random, HEADINGS),
      ...(chance(random, 0.1) ? [] : partLines(draw, chance(random, 0.4) ? '  ' : '')),
    );
  }
  const end = chance(random, 0.2) ? '\r\n' : '\n';
  return (
    (chance(random, 0.1) ? '\ufeff' : '') +
    lines.map((line) => dressed(line, random)).join(end) +
    (chance(random, 0.8) ? end : '')
  );
}

/** A text with up to four small things changed: characters, lines, words, signs. */
export function mutate(text: string, random: Random): string {
  let changed = text;
  for (let times = whole(random, 1, 4); times > 0; times -= 1) changed = mutateOnce(changed, random);
  return changed;
}

const SPLINTERS = [
  ...[
    '/',
    ':',
    '@',
    'x',
    '×',
    '*',
    '-',
    '–',
    '+',
    '.',
    ',',
    '#',
    ' # ',
    '\t',
    '\r',
    '\u0000',
    '\ud800',
    ' on ',
    ' on the ',
  ],
  ...[
    ' rest ',
    ' hold ',
    ' drop ',
    ' add ',
    ' css',
    ' base',
    ' of ',
    ' rounds',
    ' ri 15',
    '1:30',
    '1.30',
    '130',
    '0',
    '501',
  ],
  ...['lane ', 'talk ', 'pool ', 'a) ', '• ', '\n', '  ', '99999999999999999999', '10001', 's', ' min', ':30', '-0:05'],
];

function mutateOnce(text: string, random: Random): string {
  const at = whole(random, 0, text.length);
  const lines = text.split('\n');
  const line = whole(random, 0, lines.length - 1);
  switch (whole(random, 0, 7)) {
    case 0:
      return text.slice(0, at) + text.slice(at + whole(random, 1, 3));
    case 1:
    case 2:
    case 3:
      return text.slice(0, at) + pick(random, SPLINTERS) + text.slice(at);
    case 4:
      return [...lines.slice(0, line), ...lines.slice(line + 1)].join('\n');
    case 5:
      return [...lines.slice(0, line), lines[whole(random, 0, lines.length - 1)], ...lines.slice(line)].join('\n');
    case 6:
      return lines.map((one, index) => (index === line ? pick(random, ['  ', '\t', '    ']) + one : one)).join('\n');
    default:
      return text.slice(0, at) + String.fromCodePoint(whole(random, 0, 0xd7ff)) + text.slice(at + 1);
  }
}

function header(draw: Draw): string[] {
  const { random, lanes, length, unit } = draw;
  const first = whole(random, 0, 3);
  const lines = [
    `pool${chance(random, 0.2) ? ':' : ''} ${length}${chance(random, 0.5) ? ' ' : ''}${unit}`,
    'Harbour squad',
  ];
  if (chance(random, 0.5)) lines.push('start 19:30');
  if (chance(random, 0.5)) lines.push(pick(random, ['finish 20:30', 'Finish: 0:15']));
  if (chance(random, 0.3)) lines.push(`gap ${whole(random, 1, 60)}`);
  if (chance(random, 0.3))
    lines.push(pick(random, ['between 0:30', 'between auto 0:45', 'between 0:00', 'between 90']));
  if (chance(random, 0.3)) lines.push(`start on ${pick(random, [1, 5, 10, 15, 30, 60])}`);
  if (chance(random, 0.3)) lines.push(`grid ${pick(random, [1, 5, 10])}`);
  lanes.forEach(({ css }, index) => lines.push(`lane ${first + index} ${laneItems(random, css)}`.trim()));
  return lines;
}

function laneItems(random: Random, css: boolean): string {
  const items: string[] = [];
  if (css) items.push(`css ${pick(random, ['1:20', '88', '1:41.5', '1:33 '])}`);
  if (chance(random, 0.4)) items.push(`Base ${pick(random, ['1:30', '1:45', '99', '2:00s'])}`);
  if (chance(random, 0.3)) items.push(...FIRST_NAMES.slice(0, whole(random, 1, 6)));
  else if (chance(random, 0.6)) items.push(pick(random, ['1 swimmer', '5 swimmers', '7  swimmers']));
  if (chance(random, 0.2)) items.push('gap 10');
  return items.join(chance(random, 0.5) ? ', ' : ' ,');
}

function partLines(draw: Draw, margin: string, depth = 0): string[] {
  const { random } = draw;
  const lines: string[] = [];
  for (let count = whole(random, 1, 4); count > 0; count -= 1) {
    const kind = random();
    if (kind < 0.12 && depth < 3) {
      const words = pick(random, ['rounds', 'rounds of', 'times', 'x', '×:', 'Rounds:']);
      lines.push(
        `${margin}${whole(random, 1, 3)} ${words}`,
        ...partLines(draw, `${margin}${pick(random, ['  ', '\t', '   '])}`, depth + 1),
      );
    } else if (kind < 0.2) {
      lines.push(
        margin +
          pick(random, ['talk 1:30 turns: 4 x a go', 'break 0:45', 'Rest: 2:00, drink', 'talk :30', 'break 2 min']),
      );
    } else {
      lines.push(margin + swimLine(draw));
    }
  }
  return lines;
}

function swimLine(draw: Draw): string {
  const { random } = draw;
  const kind = random();
  if (kind < 0.08) return `${pick(random, ['15:00', '10 min', '6:00', '90 s', ':45'])} ${pick(random, WORDS)}`;
  if (kind < 0.16) {
    // Long enough for one rep of whatever distance: a kick over 400 with a rest.
    const block = pick(random, ['20:00', '11 min', '12:30']);
    return `${block} of ${values(draw, () => distance(draw))}${pick(random, ['', 's', draw.unit])} ${timed(draw, false)}`;
  }
  if (kind < 0.24) {
    const rungs = Array.from({ length: whole(random, 2, 5) }, () => distance(draw));
    return `${rungs.join(pick(random, ['-', ' - ', '–']))} ${clauses(draw)}`;
  }
  if (kind < 0.3) return `${whole(random, 1, 3)} x ${whole(random, 1, 4)} x ${distance(draw)} ${clauses(draw)}`;
  const times = pick(random, ['x', ' x ', '×', ' * ', ' X ']);
  const count = chance(random, 0.25) ? '' : values(draw, () => whole(random, 1, 9)) + times;
  const unit = pick(random, ['', '', '', draw.unit, ` ${draw.unit}`]);
  return `${count}${values(draw, () => distance(draw))}${unit} ${clauses(draw)}`;
}

function clauses(draw: Draw): string {
  const { random } = draw;
  const before = chance(random, 0.6) ? `${pick(random, WORDS)} ` : '';
  if (chance(random, 0.2)) return `${before}${target(draw)}`;
  return before + timed(draw);
}

/** `steps`: a drop would bring the intervals of a long block below 0. */
function timed(draw: Draw, steps = true): string {
  const { random } = draw;
  const hold = target(draw);
  const first = chance(random, 0.5);
  const behind = chance(random, 0.4) ? `, ${pick(random, WORDS)}` : '';
  return `${first ? hold : ''} ${interval(draw, steps)}${first ? '' : ` ${hold}`}${behind}`;
}

function interval(draw: Draw, steps: boolean): string {
  const { random } = draw;
  if (chance(random, 0.2)) {
    const rest = values(draw, () => pick(random, ['15', '0:20', '30 s', ':10', '7.5']));
    return pick(random, [`rest ${rest}`, `ri ${rest}`, `${rest} rest`]);
  }
  const sign = pick(random, ['@', '@ ', ' @  ', 'on ', 'on the ', 'On ']);
  const value = values(draw, () =>
    pick(random, [
      '1:30',
      '2:05',
      '90',
      '0:55.5',
      ':50',
      'base',
      'base+10',
      'base + 0:05',
      'base-1',
      'Base–2',
      '2 min',
    ]),
  );
  const step = steps && chance(random, 0.15) ? pick(random, [' drop 1', ', add 2', ' add 0:01.5', ' drop 1.5']) : '';
  return sign + value + step;
}

function target(draw: Draw): string {
  const { random, lanes } = draw;
  if (chance(random, 0.7)) return '';
  const values_ = lanes.every(({ css }) => css)
    ? ['css', 'css+3', 'css - 2', 'CSS+0:01.5', '1:20']
    : ['1:20', '80', '1:05.5'];
  return `hold ${values(draw, () => pick(random, values_))}`;
}

function distance({ random, length }: Draw): number {
  return pick(
    random,
    [50, 100, 75, 200, 150, 62.5, 400].filter((one) => one >= length),
  );
}

/** One value, or one a lane. */
function values({ random, lanes }: Draw, value: () => string | number): string {
  if (chance(random, 0.7)) return String(value());
  return lanes.map(value).join(chance(random, 0.8) ? '/' : ' / ');
}

/** Bullets, comments, blank lines and spaces that mean nothing. */
function dressed(line: string, random: Random): string {
  const [, margin = '', text = ''] = /^(\s*)([^]*)$/.exec(line)!;
  const bullet = chance(random, 0.1) ? pick(random, ['- ', '• ', 'a) ', '12) ', '– ']) : '';
  const comment = chance(random, 0.1) ? pick(random, [' # 8 x 50', ' #', '\n# note 1:30', '\n', '  ']) : '';
  return margin + bullet + text + comment;
}

function pick<Value>(random: Random, values: readonly Value[]): Value {
  return values[Math.floor(random() * values.length)]!;
}

function whole(random: Random, from: number, to: number): number {
  return from + Math.floor(random() * (to - from + 1));
}

function chance(random: Random, share: number): boolean {
  return random() < share;
}
