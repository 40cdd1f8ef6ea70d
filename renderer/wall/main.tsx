/*
 * The wall screen's page: `/display`.
 */

import { createRoot } from 'react-dom/client';
import { openLink } from '../link/link.ts';
import { hostAddress } from '../link/own-window.ts';
import { ownStorage } from '../ui/coach/own-storage.ts';
import '../ui/tokens.css';
import '../ui/digits.css';
import { readWallChoice } from './lane-choice.ts';
import { openOwnSound } from './own-sound.ts';
import { SoundControl } from './sound-control.tsx';
import { WallScreen } from './wall-screen.tsx';
import './strips.css';
import './wall.css';

const root = document.getElementById('root');
if (!root) throw new Error('the page has no root');

const link = openLink('wall');
const choice = readWallChoice(location.search);
const canPlay = 'AudioContext' in window || 'webkitAudioContext' in window;
const sound = openOwnSound(ownStorage(), canPlay, async (memory) => {
  const { openSound } = await import('../sound/sound.ts');
  return openSound(link, memory);
});
createRoot(root).render(
  <>
    <WallScreen link={link} choice={choice} address={hostAddress()} />
    <SoundControl sound={sound} />
  </>,
);
