/*
 * `npm run gallery [-- FOLDER [SCENE [SIZE...]]]`: pictures of every state of every screen, from the real host and
 * pages in a real browser, into a folder (dist/gallery without one) with a page that shows them all; of
 * scenes whose name begins with SCENE, if one is given, and of these sizes alone (390x844).
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright';
import { browserPath } from '../support/system/browser.ts';
import { MovingDeck } from '../support/host/deck/moving-deck.ts';
import { atTheDoor } from './sharing/at-the-door.ts';
import { galleryPage, type Picture } from './gallery-page.ts';
import { lostLink } from './lost-link.ts';
import type { Scene, ScreenName } from './scene.ts';
import { SCENES } from './scenes.ts';
import { tellPages } from './sharing/told-pages.ts';
import { turnedAway } from './sharing/turned-away.ts';

interface View {
  readonly screen: ScreenName;
  readonly width: number;
  readonly height: number;
  readonly scheme: 'light' | 'dark';
}

const VIEWS: readonly View[] = [
  ...viewsOf('wall', ['dark'], [1920, 1080], [3840, 2160], [1280, 720], [1024, 768], [1080, 1920]),
  ...viewsOf('coach', ['light', 'dark'], [1280, 800], [1024, 700], [1920, 1080], [768, 1024], [390, 844]),
  ...viewsOf('tablet', ['light', 'dark'], [1024, 768], [1366, 768]),
  ...viewsOf('remote', ['light', 'dark'], [390, 844], [320, 568]),
];

const PATHS: { readonly [screen in ScreenName]: string } = {
  wall: '/display',
  coach: '/',
  tablet: '/',
  remote: '/remote',
};

const root = fileURLToPath(new URL('../..', import.meta.url));
const usual = join(root, 'dist', 'gallery');
const folder = resolve(process.argv[2] ?? usual);
const wanted = process.argv[3] ?? '';
const sizes = process.argv.slice(4);
const built = spawnSync(process.execPath, [join(root, 'app/cli/launcher/launch.mjs'), 'build'], { stdio: 'inherit' });
if (built.status !== 0) process.exit(built.status ?? 1);
// Whatever else is in a folder of somebody's choice is theirs.
if (folder === usual) rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const browser = await chromium.launch({ executablePath: browserPath(), args: ['--no-sandbox'] });
const pictures: Picture[] = [];
for (const scene of SCENES) {
  if (!scene.name.startsWith(wanted)) continue;
  try {
    pictures.push(...(await takeScene(browser, scene)));
  } catch (error) {
    // The other scenes are drawn all the same.
    process.exitCode = 1;
    process.stderr.write(`${scene.name}: ${String(error)}\n`);
  }
}
if ('sharing, the wall'.startsWith(wanted)) pictures.push(...(await atTheDoor(browser, folder)));
if ('sharing, turned away'.startsWith(wanted)) pictures.push(...(await turnedAway(browser, folder)));
if ('link lost'.startsWith(wanted)) pictures.push(...(await lostLink(browser, folder)));
await browser.close();
writeFileSync(join(folder, 'index.html'), galleryPage(pictures));
process.stdout.write(`${pictures.length} pictures: ${join(folder, 'index.html')}\n`);

function viewsOf(
  screen: ScreenName,
  schemes: readonly View['scheme'][],
  ...sizes: readonly (readonly [number, number])[]
): readonly View[] {
  return schemes.flatMap((scheme) => sizes.map(([width, height]) => ({ screen, width, height, scheme })));
}

async function takeScene(on: Browser, scene: Scene): Promise<readonly Picture[]> {
  const views = VIEWS.filter((view) => scene.screens.includes(view.screen) && isWanted(view));
  if (!scene.fresh) return takeViews(on, scene, views);
  const taken: Picture[] = [];
  const reached = new Set(views.map(placeOf));
  // Light and dark of one size are two pictures of the same page.
  for (const place of reached) {
    const own = views.filter((view) => placeOf(view) === place);
    taken.push(...(await takeViews(on, scene, own)));
  }
  return taken;
}

function isWanted({ width, height }: View): boolean {
  return sizes.length === 0 || sizes.includes(`${width}x${height}`);
}

function placeOf({ screen, width, height }: View): string {
  return `${screen} ${width}x${height}`;
}

/** Pictures of a scene on a host of its own, whose clock begins at half past seven. */
async function takeViews(on: Browser, scene: Scene, views: readonly View[]): Promise<readonly Picture[]> {
  const deck = await MovingDeck.start();
  const context = await on.newContext();
  try {
    return await takeOn(deck, context, scene, views);
  } finally {
    await context.close();
    await deck.close();
  }
}

async function takeOn(
  deck: MovingDeck,
  context: BrowserContext,
  scene: Scene,
  views: readonly View[],
): Promise<readonly Picture[]> {
  if (scene.told) await tellPages(context, scene.told);
  await scene.between?.(context);
  await scene.fill?.(deck.server);
  const openedAt = await bringTo(deck, scene);
  const taken: Picture[] = [];
  for (const screen of new Set(views.map((each) => each.screen))) {
    const page = await deck.openPage(context, PATHS[screen] + (scene.asks ?? ''));
    const own = views.filter((each) => each.screen === screen);
    await show(page, own[0]!);
    deck.moveTo(openedAt + scene.at * 1000);
    if (screen === 'coach' || scene.screens.length === 1) await scene.prepare?.(page);
    for (const each of own) taken.push(await take(page, scene, each));
    await page.close();
    deck.loads.delete(page);
  }
  if (deck.complaints.length > 0) throw new Error(`${scene.name}: ${deck.complaints.join('; ')}`);
  return taken;
}

/** Opens the scene's session and gives its commands; the host time at which it was opened. */
async function bringTo(deck: MovingDeck, scene: Scene): Promise<number> {
  if (scene.session === null) return 0;
  const { host } = deck.server;
  const opened = await host.open({ text: scene.session, lanesText: null }, { replace: false, clockPhase: 0 });
  if (!opened.ok) throw new Error(`${scene.name}: ${JSON.stringify(opened)}`);
  const { openedAt } = deck.run();
  for (const [index, [seconds, command]] of scene.commands.entries()) {
    deck.moveTo(openedAt + seconds * 1000);
    const answer = await host.command(`${index}`, { ...command });
    if (!answer.ok) throw new Error(`${scene.name}, ${command.do}: ${answer.why}`);
  }
  return openedAt;
}

async function take(page: Page, { name }: Scene, view: View): Promise<Picture> {
  const { screen, width, height, scheme } = view;
  await show(page, view);
  await settled(page);
  const file = `${screen} ${name} ${width}x${height} ${scheme}.png`.replace(/[^a-z0-9.]+/g, '-');
  // The water stands where it is, not where it drains to.
  await page.screenshot({ path: join(folder, file), animations: screen === 'wall' ? 'allow' : 'disabled' });
  return { file, caption: `${screen}: ${name}, ${width} × ${height}, ${scheme}` };
}

async function show(page: Page, { width, height, scheme }: View): Promise<void> {
  await page.setViewportSize({ width, height });
  await page.emulateMedia({ colorScheme: scheme });
}

/** Typeface loaded, and a few frames drawn. */
async function settled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    for (let frame = 0; frame < 4; frame++) await new Promise((done) => requestAnimationFrame(done));
  });
}
