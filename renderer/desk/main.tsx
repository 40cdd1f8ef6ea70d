/*
 * The coach's window.
 */

import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import '../ui/tokens.css';
import '../ui/digits.css';
import '../ui/coach/coach.css';
import './desk.css';
import './run.css';
import './side.css';
import './write.css';
import './edit.css';
import './after.css';
import './narrow.css';
import { openLink } from '../link/link.ts';
import { createHand } from '../ui/coach/hand.ts';
import { startFrames } from '../ui/coach/frames.ts';
import { followLight } from '../ui/coach/light-choice.ts';
import { ownStorage } from '../ui/coach/own-storage.ts';
import { openSound } from '../sound/sound.ts';
import { Desk } from './desk.tsx';

const link = openLink('desk');
const frames = startFrames(link);
const hand = createHand(link, () => performance.now(), ownStorage());
const sound = openSound(link, ownStorage());
const light = followLight(document.documentElement, window.matchMedia('(prefers-color-scheme: dark)'), ownStorage());
const page = document.getElementById('page');
if (!page) throw new Error('The page has no place to draw in.');
createRoot(page).render(
  <StrictMode>
    <Desk tools={{ link, frames, hand, sound, light }} />
  </StrictMode>,
);
