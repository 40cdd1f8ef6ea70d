/*
 * What each piece of a line is, for an editor's colours, line by line. The model holds the same over invented sessions.
 */

import { expect, test } from 'vitest';
import { lineTokens, NOTHING_ABOVE, type Above } from '../../../../app/core/session/tokens/line-tokens.ts';

/** Behind the title and the settings. */
const IN_PART: Above = { ...NOTHING_ABOVE, inHeader: false, hasTitle: true };
const BEHIND_TITLE: Above = { ...NOTHING_ABOVE, hasTitle: true };

/** The tokens of a line, each as its kind and its text. */
function told(line: string, above: Above): readonly string[] {
  return lineTokens(line, above).tokens.map(({ kind, from, to }) => `${kind} ${line.slice(from, to)}`);
}

/** Of the last of some lines. */
function toldLast(...lines: string[]): readonly string[] {
  let above = NOTHING_ABOVE;
  for (const line of lines.slice(0, -1)) above = lineTokens(line, above).above;
  return told(lines[lines.length - 1]!, above);
}

test.each<[line: string, ...tokens: string[]]>([
  [''],
  ['   '],
  ['# easy today', 'comment # easy today'],
  ['  # easy', 'comment # easy'],
  ['- # easy', 'comment # easy'],
  ['Main set', 'heading Main set'],
  ['  - Main set # hard', 'bullet - ', 'heading Main set', 'comment # hard'],
  ['a) 50', 'bullet a) ', 'distance 50'],
  ['•50', 'bullet •', 'distance 50'],
  ['Main 4x50 fast', 'words Main', 'fault 4x50', 'words fast'],
  ['note: mind the  hands, feet', 'note note:', 'words mind the  hands, feet'],
  ['Kit:fins', 'kit Kit:', 'words fins'],
  ['note: one\rtwo\u2028three', 'note note:', 'words one\rtwo\u2028three'],
  ['note:', 'fault note:'],
  ['gap 5', 'fault gap', 'words 5'],
  ['lane 1 css 1:20', 'fault lane', 'words 1 css 1:20'],
  ['talk 1:00 turns, starts', 'keyword talk', 'time 1:00', 'words turns, starts'],
  ['Break:  90', 'keyword Break:', 'time 90'],
  ['talk about 1:00', 'words talk', 'fault about', 'words 1:00'],
  ['talk', 'fault talk'],
  ['3 rounds of:', 'count 3', 'keyword rounds of:'],
  ['3 x', 'count 3', 'keyword x'],
  ['lanes 1-3:', 'lanes lanes 1-3:'],
  ['lanes 1-3:  # fast', 'lanes lanes 1-3:', 'comment # fast'],
  ['lane 2:  4 x 50', 'lanes lane 2:', 'count 4', 'keyword x', 'distance 50'],
  ['lane 2: 3 rounds', 'lanes lane 2:', 'count 3', 'keyword rounds'],
  ['lane 2: talk 1:00', 'lanes lane 2:', 'fault talk', 'words 1:00'],
  ['lane 2: easy 50', 'lanes lane 2:', 'fault easy', 'words 50'],
  ['10:00 easy, choice', 'time 10:00', 'words easy, choice'],
  [
    '15:00 of  100s/75s @ 1:30',
    'time 15:00',
    'keyword of',
    'distance 100s',
    'distance 75s',
    'keyword @',
    'interval 1:30',
  ],
  ['50', 'distance 50'],
  ['4x50', 'count 4', 'keyword x', 'distance 50'],
  ['4/3 × 50/25 m', 'count 4', 'count 3', 'keyword ×', 'distance 50', 'distance 25 m'],
  ['3 x 4 x 50', 'count 3', 'keyword x', 'count 4', 'keyword x', 'distance 50'],
  ['lane 12: 3 x 4 x 50', 'lanes lane 12:', 'count 3', 'keyword x', 'count 4', 'keyword x', 'distance 50'],
  ['12 x 4 * 50', 'count 12', 'keyword x', 'count 4', 'keyword *', 'distance 50'],
  [
    '100-200 - 12.5m–50 metres easy',
    'distance 100',
    'distance 200',
    'distance 12.5m',
    'distance 50 metres',
    'words easy',
  ],
  ['100 yards-200', 'fault 100', 'words yards-200'],
  ['50 fast on the 1:00', 'distance 50', 'words fast', 'keyword on the', 'interval 1:00'],
  ['50 on 1:00, easy', 'distance 50', 'keyword on', 'interval 1:00', 'words easy'],
  ['50 @base+10 hold css', 'distance 50', 'keyword @', 'interval base+10', 'keyword hold', 'target css'],
  ['50 hold 0:40 @ 1:00', 'distance 50', 'keyword hold', 'target 0:40', 'keyword @', 'interval 1:00'],
  [
    '4 x 50 @ 1:00, 0:55/1:05',
    'count 4',
    'keyword x',
    'distance 50',
    'keyword @',
    'interval 1:00',
    'interval 0:55',
    'interval 1:05',
  ],
  [
    '4 x 50 @ 1:00 drop 5',
    'count 4',
    'keyword x',
    'distance 50',
    'keyword @',
    'interval 1:00',
    'keyword drop',
    'step 5',
  ],
  [
    '4 x 50 @ 1:00 , Add  0:05, free',
    'count 4',
    'keyword x',
    'distance 50',
    'keyword @',
    'interval 1:00',
    'keyword Add',
    'step 0:05',
    'words free',
  ],
  [
    '4 x 50 @ 1:00 drop:05',
    'count 4',
    'keyword x',
    'distance 50',
    'keyword @',
    'interval 1:00',
    'keyword drop',
    'step :05',
  ],
  ['50 on  the  1:00', 'distance 50', 'keyword on  the', 'interval 1:00'],
  ['4 x 100s easy', 'count 4', 'keyword x', 'distance 100s', 'words easy'],
  ['50 rest:15', 'distance 50', 'keyword rest', 'rest :15'],
  ['50 rest 15/20', 'distance 50', 'keyword rest', 'rest 15', 'rest 20'],
  ['50 RI 15', 'distance 50', 'keyword RI', 'rest 15'],
  ['50 free 15 s rest, easy', 'distance 50', 'words free', 'rest 15 s', 'keyword rest', 'words easy'],
  ['50 0:15ri', 'distance 50', 'fault 0:15ri'],
  [
    '4 x 50 free odds fast @ 1:00 evens @ 1:10',
    'count 4',
    'keyword x',
    'distance 50',
    'words free',
    'keyword odds',
    'words fast',
    'keyword @',
    'interval 1:00',
    'keyword evens',
    'keyword @',
    'interval 1:10',
  ],
])('in a part %j is %j', (line, ...tokens) => {
  expect(told(line, IN_PART)).toEqual(tokens);
});

test.each<[lines: readonly string[], ...tokens: string[]]>([
  [['Harbour  squad'], 'title Harbour  squad'],
  [['Harbour', 'Main'], 'heading Main'],
  [['Harbour', '50', 'gap 5'], 'fault gap', 'words 5'],
  [['Harbour', 'Main', 'gap 5'], 'fault gap', 'words 5'],
  [['Harbour', 'note: hi', '', '# x', 'gap 5'], 'setting gap', 'value 5'],
  [['(easy)'], 'fault (easy)'],
  [['(easy) 50'], 'fault (easy)', 'words 50'],
  [['gap: 5'], 'setting gap:', 'value 5'],
  [['gap5'], 'fault gap5'],
  [['start on 60'], 'setting start on', 'value 60'],
  [['START ON'], 'setting START ON'],
  [['start on   60 s'], 'setting start on', 'value 60 s'],
  [['start 19:30 - 20:30 # Thursday'], 'setting start', 'value 19:30 - 20:30', 'comment # Thursday'],
  [['start 19:30 on'], 'setting start', 'value 19:30 on'],
  [['lane 1: css 1:20'], 'setting lane', 'value 1', 'keyword css', 'value 1:20'],
  [['lane 1 big css'], 'setting lane', 'value 1', 'words big css'],
  [['lane 1 about 3 swimmers'], 'setting lane', 'value 1', 'words about 3 swimmers'],
  [['lane 1 3 swimmers please'], 'setting lane', 'value 1', 'words 3 swimmers please'],
  [['lane 1 1 swimmer'], 'setting lane', 'value 1', 'value 1', 'words swimmer'],
  [['between auto 0:45'], 'setting between', 'value auto 0:45'],
  [['pool  25 m'], 'setting pool', 'value 25 m'],
  [['lane 1'], 'setting lane', 'value 1'],
  [['lane 12 : css 1:20, base'], 'setting lane', 'value 12', 'keyword css', 'value 1:20', 'keyword base'],
  [['lane 1,, Ana  Maria , 12  swimmers'], 'setting lane', 'value 1', 'words Ana  Maria', 'value 12', 'words swimmers'],
  [['lane 1 5swimmers, GAP 10'], 'setting lane', 'value 1', 'value 5', 'words swimmers', 'keyword GAP', 'value 10'],
  [['lane 1 gaps, gap'], 'setting lane', 'value 1', 'words gaps', 'keyword gap'],
  [['lane on 1'], 'setting lane'],
  [['lanes 1-3'], 'fault lanes', 'words 1-3'],
  [['Harbour', 'lane css 1:20'], 'words lane css', 'fault 1:20'],
  [['pool 50 m', '25'], 'fault 25'],
  [['pool 50 m', '50'], 'distance 50'],
  [['pool 20', '20'], 'fault 20'],
  [['pool5 m', '20'], 'fault 20'],
  [['20 m'], 'distance 20 m'],
  [['gap 5', '20'], 'fault 20'],
  [['gap 50 m', '25'], 'distance 25'],
  [['T', 'gap is 4x50'], 'words gap is', 'fault 4x50'],
  [['T', 'gap is 4x50', 'gap 5'], 'setting gap', 'value 5'],
])('the last of %j is %j', (lines, ...tokens) => {
  expect(toldLast(...lines)).toEqual(tokens);
});

test.each<[line: string, ...tokens: string[]]>([
  ['4 x 50 @ 1.30 fast', 'count 4', 'keyword x', 'distance 50', 'words @', 'fault 1.30', 'words fast'],
  [
    '4 x 50 fast @ 1:30 free @ 1:20',
    'count 4',
    'keyword x',
    'distance 50',
    'words fast',
    'keyword @',
    'interval 1:30',
    'words free',
    'fault @',
    'words 1:20',
  ],
  ['4 x 50 1:30 @ 1:70', 'count 4', 'keyword x', 'distance 50', 'words 1:30 @', 'fault 1:70'],
  ['lane 1: 4 x 50 @ 1:70', 'lanes lane 1:', 'count 4', 'keyword x', 'distance 50', 'words @', 'fault 1:70'],
  ['4 x', 'count 4', 'keyword x'],
  ['4 x 3 x', 'words 4 x 3 x'],
  ['3 rounds fast', 'count 3', 'keyword rounds', 'fault fast'],
  ['15:00 of 100 - 200 @ 2:00', 'words 15:00 of 100', 'fault -', 'words 200 @ 2:00'],
  ['15:00 of 100 @ 1:70', 'words 15:00 of 100 @', 'fault 1:70'],
  ['lane 1: 15:00 of 100 @ 1:70', 'lanes lane 1:', 'words 15:00 of 100 @', 'fault 1:70'],
  ['100 15 sec easy @ 1:70', 'distance 100', 'words 15 sec easy @', 'fault 1:70'],
  ['10:00 @ 1:30', 'time 10:00', 'fault @', 'words 1:30'],
])('of a line at fault what stands before it is told: %j is %j', (line, ...tokens) => {
  expect(told(line, IN_PART)).toEqual(tokens);
});

test('a line in the part is no title, whatever stands above it', () => {
  expect(told('Main set', BEHIND_TITLE)).toEqual(['heading Main set']);
});
