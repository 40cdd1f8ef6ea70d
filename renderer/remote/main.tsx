/*
 * Opens the remote's page.
 */

import { StrictMode } from 'react';
import '../ui/tokens.css';
import '../ui/digits/digits.css';
import '../ui/coach/coach.css';
import { joinDeck } from '../link/joining/deck-joining.ts';
import { isOnNetwork } from '../link/joining/own-place.ts';
import { openLink } from '../link/link.ts';
import { createCoachActions } from '../ui/coach/commands/coach-actions.ts';
import { startFrames } from '../ui/coach/frames.ts';
import { createOffers } from '../ui/coach/commands/offers.ts';
import { followLight } from '../ui/coach/light-choice.ts';
import { ownStorage } from '../ui/coach/own-storage.ts';
import { browserAwake } from '../ui/awake.ts';
import { JoinFirst } from '../ui/coach/join/join-page.tsx';
import { openTouches } from '../ui/coach/times/open-touches.ts';
import { openPage } from '../ui/open-page.tsx';
import { Remote } from './remote.tsx';

openPage('page', () => {
  const { carrier, joining, enter } = joinDeck('remote');
  const link = openLink('remote', undefined, carrier);
  const frames = startFrames(link);
  const actions = createCoachActions(link, () => performance.now(), ownStorage());
  const offers = createOffers(frames, actions);
  const touches = openTouches(link);
  followLight(document.documentElement, window.matchMedia('(prefers-color-scheme: dark)'), ownStorage());
  const awake = browserAwake();
  return (
    <StrictMode>
      <JoinFirst joining={joining} enter={enter} device="phone">
        <Remote tools={{ link, frames, actions, offers, touches, undoesOwnOnly: isOnNetwork() }} awake={awake} />
      </JoinFirst>
    </StrictMode>
  );
});
