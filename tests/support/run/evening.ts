/*
 * Random evenings for property tests: small sessions of every form of line, and commands in time.
 * Sessions are valid by construction; commands are often refused, as they are on a deck.
 */

import fc from 'fast-check';
import type { Command } from '../../../app/core/run/command/command.ts';

/** A command so many ms after the one before it. */
export interface Step {
  readonly after: number;
  readonly command: Command;
}

export interface Evening {
  readonly text: string;
  readonly phase: number;
  readonly steps: readonly Step[];
}

const seconds = (low: number, high: number) => fc.integer({ min: low, max: high });

/** m:ss of whole seconds. */
const clock = (total: number) => `${Math.floor(total / 60)}:${String(total % 60).padStart(2, '0')}`;

function lines(lanes: number): fc.Arbitrary<string> {
  const each = <T>(one: fc.Arbitrary<T>) =>
    fc.array(one, { minLength: lanes, maxLength: lanes }).map((values) => values.join('/'));
  const counts = fc.oneof(seconds(1, 5).map(String), each(seconds(1, 4)));
  const distance = fc.constantFrom(25, 50, 75, 100, 150);
  const interval = fc.oneof(
    seconds(15, 200).map(clock),
    each(seconds(15, 200).map(clock)),
    fc.constantFrom('base', 'base+10', 'base-5'),
  );
  return fc.oneof(
    { weight: 6, arbitrary: fc.tuple(counts, distance, interval).map(([n, d, t]) => `${n} x ${d} free @ ${t}`) },
    fc.tuple(counts, distance, seconds(5, 40)).map(([n, d, rest]) => `${n} x ${d} kick rest ${rest}`),
    fc.tuple(seconds(2, 4), seconds(60, 200)).map(([n, t]) => `${n} x 50 @ ${clock(t)} drop 5`),
    seconds(40, 200).map((t) => `50-100-50 @ ${clock(t)}`),
    fc.tuple(seconds(0, 280), seconds(15, 120)).map(([more, t]) => `${clock(t + more)} of 50s @ ${clock(t)}`),
    seconds(20, 300).map((t) => `${clock(t)} easy swim`),
    distance.map((d) => `${d} choice`),
    seconds(2, 90).map((t) => `talk ${clock(t)} turns`),
    seconds(2, 90).map((t) => `break ${clock(t)} drink`),
  );
}

function part(lanes: number, name: string): fc.Arbitrary<string> {
  const rounds = fc
    .tuple(seconds(2, 3), fc.array(lines(lanes), { minLength: 1, maxLength: 3 }))
    .map(([times, inner]) => [`${times} rounds`, ...inner.map((line) => `  ${line}`)].join('\n'));
  return fc
    .array(fc.oneof({ weight: 3, arbitrary: lines(lanes) }, rounds), { minLength: 1, maxLength: 3 })
    .map((items) => [name, ...items].join('\n'));
}

const session: fc.Arbitrary<string> = seconds(1, 4).chain((lanes) =>
  fc
    .tuple(
      fc.array(fc.tuple(seconds(1, 6), fc.constantFrom(5, 10, 20), seconds(60, 150)), {
        minLength: lanes,
        maxLength: lanes,
      }),
      fc.constantFrom('between 0:00', 'between 1:00', 'between auto 0:00', 'between auto 0:45'),
      fc.constantFrom(1, 5, 10, 15, 30, 60),
      fc.tuple(part(lanes, 'One'), part(lanes, 'Two'), part(lanes, 'Three'), seconds(1, 3)),
    )
    .map(([squad, between, startOn, [one, two, three, count]]) =>
      [
        'Evening',
        'start 19:30',
        'finish 20:30',
        between,
        `start on ${startOn}`,
        ...squad.map(([n, gap, base], index) => `lane ${index + 1} base ${clock(base)}, ${n} swimmers, gap ${gap}`),
        ...[one, two, three].slice(0, count),
        // Whatever the parts drew, something is swum.
        '2 x 50 @ 1:00',
      ].join('\n'),
    ),
);

// The first lanes are there in most evenings; named at all in half of the commands.
const laneNumber = fc.oneof({ weight: 4, arbitrary: seconds(1, 2) }, seconds(3, 4));
const named = fc.option(fc.uniqueArray(laneNumber, { minLength: 1, maxLength: 3 }), { nil: undefined, freq: 1 });

const withLanes = <T extends object>(fields: fc.Arbitrary<T>) =>
  fc.tuple(fields, named).map(([rest, lanes]) => (lanes ? { ...rest, lanes } : rest) as unknown as Command);

const command: fc.Arbitrary<Command> = fc.oneof(
  { weight: 6, arbitrary: fc.constant<Command>({ do: 'start' }) },
  ...(['stop', 'resume', 'rejoin', 'skip', 'sit-out', 'repeat'] as const).map((name) => ({
    weight: name === 'resume' ? 5 : 3,
    arbitrary: withLanes(fc.constant({ do: name })),
  })),
  withLanes(fc.record({ do: fc.constant('shift'), seconds: fc.constantFrom(-30, -5, 5, 60) })),
  withLanes(fc.record({ do: fc.constant('interval'), seconds: fc.constantFrom(-20, -5, 5, 30) })),
  withLanes(fc.record({ do: fc.constant('swimmers'), n: seconds(1, 8) })),
  withLanes(fc.record({ do: fc.constant('gap'), seconds: seconds(1, 20) })),
  fc.record({ do: fc.constant('cut' as const), line: seconds(6, 20), n: seconds(1, 2) }),
  fc.record({ do: fc.constant('go-to' as const), line: seconds(6, 20), rep: seconds(1, 3) }),
  {
    weight: 3,
    arbitrary: fc
      .tuple(fc.constantFrom('lane-out' as const, 'lane-in' as const), laneNumber)
      .map(([name, lane]): Command => ({ do: name, lanes: [lane] })),
  },
  fc.constantFrom<Command>({ do: 'move-on' }, { do: 'restart' }, { do: 'mark', words: 'cramp' }),
  { weight: 3, arbitrary: fc.constant<Command>({ do: 'undo' }) },
);

/** A change of the text: a line goes, another comes in before it, or its times are others. */
interface Edit {
  readonly at: number;
  readonly line: string | null;
}

const edit: fc.Arbitrary<Edit> = fc.record({
  // Mostly near the end, where what has begun does not stand in the way.
  at: fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0.6, max: 1, noNaN: true })),
  line: fc.oneof(
    fc.constantFrom(null, 'Four', 'break 0:20 drink', 'talk 0:30', '100 easy', '# nothing'),
    fc.tuple(seconds(1, 3), seconds(20, 120)).map(([n, t]) => `${n} x 50 @ ${clock(t)}`),
  ),
});

/** The text with a line of its parts gone or a new one there; under rounds at their indent. */
function edited(text: string, { at, line }: Edit): string {
  const lines = text.split('\n');
  const first = lines.indexOf('One') + 1;
  const index = first + Math.floor(at * (lines.length - first));
  const indent = /^ */.exec(lines[index] ?? '')![0];
  if (line === null) lines.splice(index, 1);
  else lines.splice(index, 0, indent + line);
  return lines.join('\n');
}

const step: fc.Arbitrary<{ readonly after: number; readonly given: Command | Edit }> = fc.record({
  after: fc.oneof(
    { weight: 3, arbitrary: seconds(0, 12_000) },
    seconds(0, 120_000),
    fc.constantFrom(0, 250, 5000, 10_000),
  ),
  given: fc.oneof({ weight: 10, arbitrary: command }, { weight: 1, arbitrary: edit }),
});

export const evenings: fc.Arbitrary<Evening> = fc
  .record({
    text: session,
    phase: fc.oneof(fc.constant(0), seconds(0, 59_999)),
    given: fc.array(step, { minLength: 1, maxLength: 25 }),
  })
  .map(({ text, phase, given }) => {
    let latest = text;
    const steps = given.map(({ after, given: what }): Step => {
      if ('do' in what) return { after, command: what };
      latest = edited(latest, what);
      return { after, command: { do: 'rewrite', text: latest } };
    });
    return { text, phase, steps };
  });
