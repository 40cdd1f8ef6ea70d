/*
 * Everything that comes from outside, each with all its fields.
 */

import { FIRST_SETTINGS } from '../../app/core/screen/screen-settings.ts';
import { AFTERWARDS_VERSION, afterwardsFile } from '../../app/wire/records/afterwards.ts';
import { libraryRequest } from '../../app/wire/library.ts';
import { DELETION_VERSION, deletionFile } from '../../app/wire/records/deletion.ts';
import { clockToMatch, fromHost, fromScreen, runToLeave, sessionToOpen } from '../../app/wire/messages.ts';
import { recordsRequest } from '../../app/wire/records/records.ts';
import { runSummary, SUMMARY_VERSION } from '../../app/wire/records/run-summary.ts';
import { screensFile, SCREENS_VERSION } from '../../app/wire/screen-settings.ts';
import { squadsFile, squadsRequest, SQUADS_VERSION } from '../../app/wire/squads.ts';

export interface Schema {
  safeParse(value: unknown): { readonly success: boolean };
}

export const HASH = '0123456789abcdef';
export const VERSION = HASH + HASH;
const ROOM = { width: 1920, height: 1080 };
const SETTINGS = { ...FIRST_SETTINGS, lanes: [1, 2] };
const REP = { line: 7, rounds: [2, 1], rep: 3 };
const SNAPSHOT = {
  say: 'snapshot',
  version: 1,
  n: 4,
  epoch: 'e',
  run: {
    id: 'r',
    text: HASH,
    openedAt: 1.5,
    clockPhase: 0,
    openedAtTimeOfDay: 0,
    commands: [{ at: 0, command: {}, by: 'Remote 1' }],
    away: [{ from: 0, to: 5 }],
  },
  poolClock: 0.5,
  notices: ['The disk is full.'],
  startUp: { run: 'r', unattended: ['Harbour squad'] },
};

const ADDED = {
  marks: [{ command: 0, words: 'x' }],
  notes: ['x'],
  attendance: [{ lane: 0, swimmers: 1, names: ['Ana'] }],
  effort: 0,
  times: [{ lane: 1, at: 0, watches: [1, 2, 3] }],
};
export const SQUAD = { name: 'Harbour', lanes: ['lane 1 base 1:30', 'lane 2 Ana, Bo'] };

const SHARING = {
  state: 'open',
  address: 'http://192.168.1.20:7525/',
  choices: [{ address: '192.168.1.20', name: 'wlan0' }],
  nobodyCame: false,
  showing: 1,
  code: { role: 'tablet', address: 'http://192.168.1.20:7525/coach#x', letters: 'x', left: 60_000 },
  devices: [
    {
      id: HASH,
      role: 'wall',
      name: 'Hall',
      connected: true,
      clock: 'good',
      isNew: true,
      isYours: false,
      mayThrowOut: true,
    },
  ],
  mayLetIn: true,
  fault: 'The port is in use.',
};

export const WHOLE: readonly (readonly [string, Schema, object])[] = [
  [
    'hello',
    fromScreen,
    { say: 'hello', version: 1, screen: 'wall', wall: { name: 'Hall', search: '?flip', room: ROOM } },
  ],
  ['ping', fromScreen, { say: 'ping', n: 3, t1: 1.5 }],
  [
    'command',
    fromScreen,
    {
      say: 'command',
      id: 'a',
      command: {},
      run: 'r',
      expected: { '1': REP, '12': REP },
      lastStop: 1,
      undoes: { command: 'x', at: 1 },
      madeFrom: HASH,
    },
  ],
  ['clock', fromScreen, { say: 'clock', quality: 'fair', bound: 30 }],
  ['whole', fromScreen, { say: 'whole' }],
  ['sound', fromScreen, { say: 'sound', id: 'a', n: 1, status: 'off', asked: true, more: true }],
  ['room', fromScreen, { say: 'room', room: ROOM }],
  ['a wish', fromScreen, { say: 'screen', id: 'a', name: 'Hall', wish: { settings: SETTINGS } }],
  ['another wish', fromScreen, { say: 'screen', id: 'a', name: 'Hall', wish: { rename: 'Gym' } }],
  ['a third wish', fromScreen, { say: 'screen', id: 'a', name: 'Hall', wish: { forget: true } }],
  ['which', fromScreen, { say: 'which' }],
  ['touch', fromScreen, { say: 'touch', id: 'a', run: 'r', lane: 1, at: 10_000, watch: 37_800 }],
  ['a wish of sharing', fromScreen, { say: 'sharing', id: 'a', wish: { do: 'let-in', digits: '0123' } }],
  ['ask', fromScreen, { say: 'ask', id: 'a', method: 'PUT', path: '/session', body: 'x' }],
  ['pong', fromHost, { say: 'pong', n: 3, t1: 1.5, t2: 2.5, t3: 3.5, epoch: 'e' }],
  ['text', fromHost, { say: 'text', hash: HASH, text: 'x', lanesText: 'lane 1' }],
  ['snapshot', fromHost, SNAPSHOT],
  ['presence', fromHost, { say: 'presence', screens: { desk: 1, wall: 2, remote: 0 } }],
  [
    'sound, told',
    fromHost,
    { say: 'sound', more: true, screens: [{ id: 'page', screen: 'wall', n: 3, status: 'running', on: true }] },
  ],
  ['screen', fromHost, { say: 'screen', name: 'Hall', settings: SETTINGS }],
  [
    'commands',
    fromHost,
    {
      say: 'commands',
      n: 4,
      epoch: 'e',
      run: 'r',
      after: 1,
      commands: [{ at: 5, command: { do: 'stop' }, by: 'Remote 1' }],
      notices: ['A notice.'],
      startUp: { run: 'r', unattended: ['Monday'] },
    },
  ],
  [
    'screens',
    fromHost,
    {
      say: 'screens',
      screens: [
        {
          name: 'Hall',
          settings: SETTINGS,
          connected: [{ search: '', room: ROOM }],
          isOwnWindow: true,
        },
      ],
    },
  ],
  ['which, told', fromHost, { say: 'which' }],
  ['times', fromHost, { say: 'times', run: 'r', times: [{ lane: 1, at: 0, watches: [1, 2, 3] }] }],
  ['answer', fromHost, { say: 'answer', id: 'a', ok: true, at: 1, why: 'x' }],
  ['sharing, told', fromHost, { say: 'sharing', sharing: SHARING }],
  ['own-key', fromHost, { say: 'own-key', given: { id: HASH, key: VERSION + VERSION, role: 'coach', name: 'x' } }],
  ['claim', fromHost, { say: 'claim', address: 'http://localhost:7525/#x' }],
  ['reply', fromHost, { say: 'reply', id: 'a', status: 200, body: 'x' }],
  ['bye', fromHost, { say: 'bye', why: 'x', version: 1, again: true, ended: true }],
  ['a session to open', sessionToOpen, { text: 'x', lanesText: 'lane 1', replace: true, clockPhase: 0 }],
  ['a run to leave', runToLeave, { run: 'r' }],
  ['a clock to match', clockToMatch, { run: 'r', clockPhase: 0 }],
  ['list', libraryRequest, { do: 'list', find: '', most: 1 }],
  ['read', libraryRequest, { do: 'read', kind: 'session', name: 'x' }],
  ['look', libraryRequest, { do: 'look', kind: 'piece', name: 'x', version: VERSION }],
  ['create', libraryRequest, { do: 'create', kind: 'session', name: 'x', text: '' }],
  ['save', libraryRequest, { do: 'save', kind: 'session', name: 'x', text: '', version: VERSION, over: true }],
  ['rename', libraryRequest, { do: 'rename', kind: 'session', name: 'x', to: 'y', near: true }],
  ['discard', libraryRequest, { do: 'discard', kind: 'session', name: 'x' }],
  ['bin', libraryRequest, { do: 'bin' }],
  ['put back', libraryRequest, { do: 'put-back', id: 'x' }],
  [
    'the file of screens',
    screensFile,
    { version: SCREENS_VERSION, screens: [{ name: 'Hall', settings: SETTINGS, formerly: ['Gym'] }] },
  ],
  ['what is added afterwards', afterwardsFile, { version: AFTERWARDS_VERSION, run: 'r', ...ADDED, touches: ['a'] }],
  ['squads', squadsRequest, { do: 'list' }],
  ['a squad to keep', squadsRequest, { do: 'keep', squad: SQUAD, over: true }],
  ['a squad to rename', squadsRequest, { do: 'rename', name: 'Harbour', to: 'Juniors' }],
  ['a squad to delete', squadsRequest, { do: 'delete', name: 'Harbour' }],
  ['the file of squads', squadsFile, { version: SQUADS_VERSION, squads: [SQUAD, { ...SQUAD, name: 'Juniors' }] }],
  ['history', recordsRequest, { do: 'list', find: '', from: '2026-11-01', to: '2026-11-30', most: 1 }],
  ['review', recordsRequest, { do: 'review', run: 'r' }],
  ['table', recordsRequest, { do: 'table', run: 'r' }],
  ['session again', recordsRequest, { do: 'session', run: 'r' }],
  ['keep', recordsRequest, { do: 'keep', run: 'r', version: VERSION, added: ADDED }],
  ['a run to delete', recordsRequest, { do: 'delete-run', run: 'r' }],
  ['those never started', recordsRequest, { do: 'never-started' }],
  ['those never started to delete', recordsRequest, { do: 'delete-never-started', only: '2026-11-26T19-30-00Z-x' }],
  ['a name to delete', recordsRequest, { do: 'delete-name', name: 'Ana' }],
  ['everything to delete', recordsRequest, { do: 'delete-everything' }],
  ['a deletion of runs', deletionFile, { version: DELETION_VERSION, delete: { what: 'runs', stems: ['2026'] } }],
  ['a deletion of a name', deletionFile, { version: DELETION_VERSION, delete: { what: 'name', name: 'Ana' } }],
  ['a deletion of everything', deletionFile, { version: DELETION_VERSION, delete: { what: 'everything' } }],
  [
    'the summary of a run',
    runSummary,
    {
      version: SUMMARY_VERSION,
      journal: { length: 1, changed: 'x' },
      after: { length: 1, changed: 'x' },
      run: {
        run: 'r',
        title: 'Tuesday',
        openedAt: '2026-11-26T19:30:00',
        ended: 'done',
        durationMs: 1,
        unit: 'm',
        plannedDistance: 1.5,
        distance: 1.5,
        lanes: [{ lane: 1, plannedDistance: 1.5, distance: 1.5 }],
        attendance: [{ lane: 1, swimmers: 1, names: ['Ana'] }],
        effort: 1,
        load: 1,
        notes: ['x'],
        css: [{ lane: 1, cssMs: 1, caution: 'x' }],
      },
      words: ['x'],
      isStarted: true,
    },
  ],
];
