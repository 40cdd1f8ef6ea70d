/*
 * A strict reading of calendar text after RFC 5545, written from the standard alone: it knows
 * nothing of how the timetable writes one, and throws wherever the standard says MUST and the
 * text does otherwise. It knows the properties that a timetable may use, and no more.
 */

export interface CalendarEvent {
  readonly uid: string;
  /** `YYYYMMDDTHHMMSSZ`. */
  readonly stamp: string;
  /** Floating local time, `YYYYMMDDTHHMMSS`. */
  readonly start: string;
  readonly end: string;
  readonly summary: string;
  readonly description: string;
}

interface Property {
  readonly name: string;
  readonly value: string;
}

/** The events of one VCALENDAR object. */
export function readCalendar(bytes: Uint8Array): readonly CalendarEvent[] {
  const properties = contentLines(bytes).map(propertyOf);
  const [begin, ...rest] = properties;
  const end = rest.pop();
  must(begin?.name === 'BEGIN' && begin.value === 'VCALENDAR', 'starts with BEGIN:VCALENDAR (3.4)');
  must(end?.name === 'END' && end.value === 'VCALENDAR', 'ends with END:VCALENDAR (3.4)');
  const firstEvent = rest.findIndex(({ name }) => name === 'BEGIN');
  const head = rest.slice(0, firstEvent);
  must(one(head, 'VERSION') === '2.0', 'VERSION 2.0, once (3.7.4)');
  must(one(head, 'PRODID') !== '', 'PRODID, once (3.7.3)');
  must(
    head.every(({ name }) => ['VERSION', 'PRODID', 'CALSCALE'].includes(name)),
    'known calendar properties only',
  );
  const events = splitEvents(rest.slice(firstEvent)).map(eventOf);
  must(new Set(events.map(({ uid }) => uid)).size === events.length, 'every UID is unique (3.8.4.7)');
  return events;
}

/** Lines with their folds undone (3.1); checks CRLF, octets and UTF-8 of each line as it stands in the bytes. */
function contentLines(bytes: Uint8Array): readonly string[] {
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  const physical: Uint8Array[] = [];
  let start = 0;
  bytes.forEach((byte, at) => {
    if (byte === 0x0d) must(bytes[at + 1] === 0x0a, 'CR only before LF (3.1)');
    if (byte !== 0x0a) return;
    must(bytes[at - 1] === 0x0d, 'LF only after CR (3.1)');
    physical.push(bytes.subarray(start, at - 1));
    start = at + 1;
  });
  must(start === bytes.length, 'the last line ends with CRLF (3.4)');
  const lines: string[] = [];
  for (const line of physical) {
    must(line.length <= 75, 'lines of at most 75 octets (3.1)');
    // Decoded one by one: a fold must not split a character.
    const text = decoder.decode(line);
    must(text !== '', 'no empty lines (3.1)');
    if (/^[ \t]/.test(text)) {
      must(lines.length > 0, 'a fold continues a line (3.1)');
      lines[lines.length - 1] += text.slice(1);
    } else lines.push(text);
  }
  return lines;
}

/** `name *(";" param) ":" value`; the timetable has no use for parameters, so none are accepted. */
function propertyOf(line: string): Property {
  const match = /^([A-Z0-9-]+):(.*)$/.exec(line);
  must(match !== null, `a property name and a colon: ${line}`);
  must(![...match[2]!].some((character) => character < ' ' && character !== '\t'), 'no control characters (3.1)');
  return { name: match[1]!, value: match[2]! };
}

function splitEvents(properties: readonly Property[]): readonly (readonly Property[])[] {
  const events: Property[][] = [];
  let open = false;
  for (const property of properties) {
    if (property.name === 'BEGIN') {
      must(property.value === 'VEVENT' && !open, 'BEGIN:VEVENT outside an event (3.6.1)');
      events.push([]);
      open = true;
    } else if (property.name === 'END') {
      must(property.value === 'VEVENT' && open, 'END:VEVENT closes an event (3.6.1)');
      open = false;
    } else {
      must(open, `a property in an event: ${property.name}`);
      events[events.length - 1]!.push(property);
    }
  }
  must(!open, 'the last event is closed (3.6.1)');
  return events;
}

function eventOf(properties: readonly Property[]): CalendarEvent {
  const known = ['UID', 'DTSTAMP', 'DTSTART', 'DTEND', 'SUMMARY', 'DESCRIPTION'];
  must(
    properties.every(({ name }) => known.includes(name)),
    'known event properties only',
  );
  const event = {
    uid: one(properties, 'UID'),
    stamp: one(properties, 'DTSTAMP'),
    start: one(properties, 'DTSTART'),
    end: one(properties, 'DTEND'),
    summary: textValue(one(properties, 'SUMMARY')),
    description: textValue(one(properties, 'DESCRIPTION')),
  };
  must(/Z$/.test(event.stamp) && isDateTime(event.stamp.slice(0, -1)), 'DTSTAMP in UTC (3.8.7.2)');
  must(isDateTime(event.start), 'DTSTART a date-time (3.3.5)');
  must(isDateTime(event.end), 'DTEND a date-time of the same form (3.8.2.2)');
  must(event.end > event.start, 'DTEND later than DTSTART (3.8.2.2)');
  return event;
}

function one(properties: readonly Property[], name: string): string {
  const values = properties.filter((property) => property.name === name);
  must(values.length === 1, `${name} exactly once`);
  return values[0]!.value;
}

/** A real day of the calendar and time of day, in the basic form of 3.3.5. */
function isDateTime(text: string): boolean {
  const match = /^(\d{4})(\d{2})(\d{2})T([01]\d|2[0-3])([0-5]\d)([0-5]\d)$/.exec(text);
  if (!match) return false;
  const [year, month, day] = match.slice(1, 4).map(Number) as [number, number, number];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days !== undefined && day >= 1 && day <= days;
}

/** A TEXT value with its escapes undone (3.3.11): backslash, semicolon and comma are never bare. */
function textValue(value: string): string {
  let text = '';
  for (let at = 0; at < value.length; at++) {
    const character = value[at]!;
    must(character !== ';' && character !== ',', `a bare ${character} in a text (3.3.11)`);
    if (character !== '\\') {
      text += character;
      continue;
    }
    const next = value[++at];
    must(next !== undefined && '\\;,nN'.includes(next), 'a backslash escapes \\ ; , or n (3.3.11)');
    text += next === 'n' || next === 'N' ? '\n' : next;
  }
  return text;
}

function must(holds: boolean, rule: string): asserts holds {
  if (!holds) throw new Error(`not a calendar: ${rule}`);
}
