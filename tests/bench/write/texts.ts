/*
 * The texts that are typed in: a session as it is, one of a thousand lines, and the largest that is allowed.
 */

const HEADER =
  'Harbour squad\npool 25 m\nstart 19:30\nfinish 20:30\nlane 1 css 1:20, 5 swimmers\nlane 2 css 1:28, 6 swimmers\nlane 3 css 1:41\n';
const PART = 'Main set\n4 x 50 back and free by 25 @ base+10\n2 x 150 steady @ 3:20/3:40/3:50\n6 x 75 free rest 15\n';

export const TEXTS = [
  { name: '40 lines', lines: 40 },
  { name: '1000 lines', lines: 1000 },
  { name: 'the largest allowed', lines: 10_400 },
] as const;

export function longText(lines: number): string {
  return HEADER + PART.repeat(Math.max(1, Math.round((lines - 7) / 4)));
}
