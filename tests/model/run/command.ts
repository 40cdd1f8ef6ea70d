/*
 * The commands as a script gives them, and which fields each takes. A field that is missing,
 * unknown, empty, of the wrong kind or out of range refuses the command.
 */

export interface Command {
  readonly atMs: number;
  readonly do: string;
  readonly lanes?: readonly number[];
  readonly seconds?: number;
  readonly line?: number;
  readonly n?: number;
  /** Numbers, outermost first. */
  readonly rounds?: readonly number[];
  readonly rep?: number;
  readonly text?: string;
  readonly words?: string;
}

type Field = Exclude<keyof Command, 'atMs' | 'do'>;

interface Fields {
  readonly needs?: readonly Field[];
  readonly may?: readonly Field[];
}

const FIELDS: Readonly<Record<string, Fields>> = {
  start: {},
  stop: { may: ['lanes'] },
  resume: { may: ['lanes'] },
  rejoin: { may: ['lanes'] },
  skip: { may: ['lanes'] },
  'sit-out': { may: ['lanes'] },
  repeat: { may: ['lanes'] },
  shift: { needs: ['seconds'], may: ['lanes'] },
  interval: { needs: ['seconds'], may: ['lanes'] },
  cut: { needs: ['line', 'n'] },
  rewrite: { needs: ['text'] },
  'go-to': { needs: ['line', 'rep'], may: ['rounds'] },
  'move-on': {},
  restart: {},
  'lane-out': { needs: ['lanes'] },
  'lane-in': { needs: ['lanes'] },
  swimmers: { needs: ['n'], may: ['lanes'] },
  gap: { needs: ['seconds'], may: ['lanes'] },
  mark: { may: ['lanes', 'words'] },
  finish: {},
  undo: {},
};

export const COMMAND_NAMES: readonly string[] = Object.keys(FIELDS);

/** Why the command cannot be taken as it stands, or null. */
export function faultInFields(command: Command): string | null {
  const fields = FIELDS[command.do];
  if (!fields) return `${command.do} is no command`;
  const given = Object.keys(command).filter((key) => key !== 'atMs' && key !== 'do') as Field[];
  const allowed = [...(fields.needs ?? []), ...(fields.may ?? [])];
  const unknown = given.find((field) => !allowed.includes(field));
  if (unknown) return `${command.do} takes no ${unknown}`;
  const missing = (fields.needs ?? []).find((field) => !given.includes(field));
  if (missing) return `${command.do} needs ${missing}`;
  const wrong = given.find((field) => !isRight(command, field));
  return wrong ? `${wrong} is not as it must be` : null;
}

function isRight(command: Command, field: Field): boolean {
  const value: unknown = command[field];
  switch (field) {
    case 'lanes':
      return isList(value, 0) && value.length > 0;
    case 'rounds':
      return isList(value, 1);
    case 'seconds':
      return command.do === 'gap' ? isWhole(value, 1, 60) : isWhole(value, -600, 600) && value !== 0;
    case 'n':
      return isWhole(value, 1, command.do === 'swimmers' ? 20 : Infinity);
    case 'line':
    case 'rep':
      return isWhole(value, 1, Infinity);
    case 'text':
      return typeof value === 'string' && value !== '';
    case 'words':
      return typeof value === 'string' && value.length <= 200;
  }
}

function isWhole(value: unknown, least: number, most: number): value is number {
  return typeof value === 'number' && Number.isInteger(value) && value >= least && value <= most;
}

function isList(value: unknown, least: number): value is readonly number[] {
  return Array.isArray(value) && value.every((one) => isWhole(one, least, Infinity));
}
