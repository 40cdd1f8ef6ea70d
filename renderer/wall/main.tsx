/*
 * The wall screen's page: `/display`.
 */

import type { ReactElement } from 'react';
import { lentTo } from '../link/lent-link.ts';
import { openLink, type Link } from '../link/link.ts';
import { reportMishap } from '../link/mishap.ts';
import { hostAddress } from '../link/connection/own-window.ts';
import { isOnNetwork } from '../link/joining/own-place.ts';
import { joinAsWall } from '../link/joining/wall-joining.ts';
import { ownStorage, windowStorage } from '../ui/coach/own-storage.ts';
import { browserAwake } from '../ui/awake.ts';
import { openPage } from '../ui/open-page.tsx';
import { Region } from '../ui/region.tsx';
import '../ui/tokens.css';
import '../ui/digits/digits.css';
import { AwakeNote } from './screen/awake-note.tsx';
import { createIntroduction } from './screen/introduction.ts';
import { openOwnSound } from './screen/own-sound.ts';
import { SightControl } from './screen/sight-control.tsx';
import { SoundControl } from './screen/sound-control.tsx';
import { DigitsFirst } from './joining/digits-screen.tsx';
import { WallScreen } from './wall-screen.tsx';
import './colours.css';
import './strips/strips.css';
import './strips/states.css';
import './wall.css';
import './head/head.css';
import './screen/part-failed.css';
import './idle/idle.css';
import './screen/screen-named.css';
import './screen/sound-control.css';
import './callout/callout.css';

openPage('root', () => {
  const lent = lentTo(window);
  if (lent) {
    import('./sight/tell-sight.ts').then(
      ({ tellSight }) => tellSight(lent, window),
      (error) => reportMishap('telling how far it can be read', error),
    );
    return <Shown link={lent.link} />;
  }
  const own = createIntroduction(window, hostAddress() === null, { window: windowStorage(), browser: ownStorage() });
  const { carrier, joining } = joinAsWall();
  const link = openLink('wall', own.introduce, carrier);
  own.follow(link);
  const awake = browserAwake();
  const canPlay = 'AudioContext' in window || 'webkitAudioContext' in window;
  const sound = openOwnSound(ownStorage(), canPlay, async (memory) => {
    const { openSound } = await import('../sound/sound.ts');
    return openSound(link, memory);
  });
  const Sight = ({ onOpen }: { onOpen(open: boolean): void }) => <SightControl link={link} onOpen={onOpen} />;
  return (
    <DigitsFirst joining={joining}>
      <Shown link={link} />
      <Region name="The note on sleep" advice="The clock and the leaves go on." link={link}>
        <AwakeNote link={link} ports={awake} />
      </Region>
      <Region name="The controls at the foot" advice="The clock and the leaves go on." link={link}>
        <SoundControl sound={sound} beside={Sight} />
      </Region>
    </DigitsFirst>
  );
});

/** All that is shown: a picture of this screen in the coach's window has just that, and neither sounds nor stays awake. */
function Shown({ link }: { readonly link: Link }): ReactElement {
  return (
    <Region name="The wall screen" advice="Swimmers leave at the coach's word meanwhile." link={link}>
      <WallScreen link={link} search={location.search} address={isOnNetwork() ? null : hostAddress()} />
    </Region>
  );
}
