/*
 * The wall screen's page: `/display`.
 */

import { openLink } from '../link/link.ts';
import { hostAddress } from '../link/connection/own-window.ts';
import { ownStorage } from '../ui/coach/own-storage.ts';
import { openPage } from '../ui/open-page.tsx';
import { Region } from '../ui/region.tsx';
import '../ui/tokens.css';
import '../ui/digits.css';
import { browserAwake } from './screen/awake.ts';
import { AwakeNote } from './screen/awake-note.tsx';
import { createIntroduction } from './screen/introduction.ts';
import { readWallChoice } from './screen/lane-choice.ts';
import { openOwnSound } from './screen/own-sound.ts';
import { SoundControl } from './screen/sound-control.tsx';
import { WallScreen } from './wall-screen.tsx';
import './colours.css';
import './strips/strips.css';
import './wall.css';
import './head/head.css';
import './screen/part-failed.css';
import './idle/idle.css';
import './screen/sound-control.css';
import './callout/callout.css';

openPage('root', () => {
  const own = createIntroduction(window, hostAddress() === null, ownStorage());
  const link = openLink('wall', own.introduce);
  own.follow(link);
  const choice = readWallChoice(location.search);
  const awake = browserAwake();
  const canPlay = 'AudioContext' in window || 'webkitAudioContext' in window;
  const sound = openOwnSound(ownStorage(), canPlay, async (memory) => {
    const { openSound } = await import('../sound/sound.ts');
    return openSound(link, memory);
  });
  return (
    <>
      <Region name="The wall screen" advice="Swimmers leave at the coach's word meanwhile." link={link}>
        <WallScreen link={link} choice={choice} address={hostAddress()} />
      </Region>
      <Region name="The note on sleep" advice="The clock and the leaves go on." link={link}>
        <AwakeNote link={link} ports={awake} />
      </Region>
      <Region name="The switch for the sound" advice="The clock and the leaves go on." link={link}>
        <SoundControl sound={sound} />
      </Region>
    </>
  );
});
