/*
 * The small remote.
 */

import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import '../ui/tokens.css';
import '../ui/digits.css';
import '../ui/coach/coach.css';
import './remote.css';
import { openLink } from '../link/link.ts';
import { createHand } from '../ui/coach/hand.ts';
import { startFrames } from '../ui/coach/frames.ts';
import { followLight } from '../ui/coach/light-choice.ts';
import { ownStorage } from '../ui/coach/own-storage.ts';
import { Remote } from './remote.tsx';

const link = openLink('remote');
const frames = startFrames(link);
const hand = createHand(link, () => performance.now(), ownStorage());
followLight(document.documentElement, window.matchMedia('(prefers-color-scheme: dark)'), ownStorage());
const page = document.getElementById('page');
if (!page) throw new Error('The page has no place to draw in.');
createRoot(page).render(
  <StrictMode>
    <Remote tools={{ link, frames, hand }} />
  </StrictMode>,
);
