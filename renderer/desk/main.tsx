/*
 * Opens the page of the coach's window. What several modules build on, `page.module.css` and
 * `table.module.css`, is loaded before them.
 */

import { StrictMode } from 'react';
import '../ui/tokens.css';
import '../ui/digits/digits.css';
import '../ui/coach/coach.css';
import './panel/page.module.css';
import './panel/table.module.css';
import { askLibrary } from '../link/requests/library.ts';
import { joinDeck } from '../link/joining/deck-joining.ts';
import { openLink } from '../link/link.ts';
import { askRecords } from '../link/requests/records.ts';
import { askForSessionFile } from '../link/connection/own-window.ts';
import { createCoachActions } from '../ui/coach/commands/coach-actions.ts';
import { startFrames } from '../ui/coach/frames.ts';
import { freeKeyboard } from '../ui/coach/free-keyboard.ts';
import { createOffers } from '../ui/coach/commands/offers.ts';
import { followLight } from '../ui/coach/light-choice.ts';
import { ownStorage } from '../ui/coach/own-storage.ts';
import { openSound } from '../sound/sound.ts';
import { JoinFirst } from '../ui/coach/join/join-page.tsx';
import { openTouches } from '../ui/coach/times/open-touches.ts';
import { openPage } from '../ui/open-page.tsx';
import { Desk } from './desk.tsx';
import { readHistoryAhead } from './history-ahead.ts';
import { Writing } from './write/writing.ts';

openPage('page', () => {
  const { carrier, joining, enter } = joinDeck('desk');
  const link = openLink('desk', undefined, carrier);
  const frames = startFrames(link);
  const actions = createCoachActions(link, () => performance.now(), ownStorage());
  const offers = createOffers(frames, actions);
  const touches = openTouches(link);
  const sound = openSound(link, ownStorage());
  const light = followLight(document.documentElement, window.matchMedia('(prefers-color-scheme: dark)'), ownStorage());
  const writing = new Writing({
    memory: ownStorage(),
    ask: askLibrary,
    timers: { set: (call, ms) => window.setTimeout(call, ms), clear: (timer) => window.clearTimeout(timer as number) },
    wall: () => Date.now(),
  });
  freeKeyboard(document);
  void askForSessionFile();
  readHistoryAhead({ store: link.store, ask: askRecords, after: (ms, call) => window.setTimeout(call, ms) });
  return (
    <StrictMode>
      <JoinFirst joining={joining} enter={enter} device="tablet">
        <Desk tools={{ link, frames, actions, sound, light, offers, touches, writing, askLibrary, askRecords }} />
      </JoinFirst>
    </StrictMode>
  );
});
