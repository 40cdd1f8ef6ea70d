/*
 * A strict reading of comma-separated values after RFC 4180, section 2, written from the standard.
 */

/** The rows with their quotes undone; throws where the text is not as the standard says. */
export function readCsv(text: string): readonly (readonly string[])[] {
  const rows: string[][] = [];
  let at = 0;
  while (at < text.length) {
    const row: string[] = [];
    for (;;) {
      const field = text[at] === '"' ? /"(?:[^"]|"")*"/y : /[^",\r\n]*/y;
      field.lastIndex = at;
      const match = field.exec(text);
      if (!match) throw new Error(`a field that is not closed, at ${at}`);
      at = field.lastIndex;
      row.push(match[0].startsWith('"') ? match[0].slice(1, -1).replace(/""/g, '"') : match[0]);
      if (text[at] !== ',') break;
      at += 1;
    }
    if (text.slice(at, at + 2) !== '\r\n') throw new Error(`a row that does not end with CRLF, at ${at}`);
    at += 2;
    rows.push(row);
    if (row.length !== rows[0]!.length) throw new Error(`row ${rows.length} has ${row.length} fields`);
  }
  return rows;
}
