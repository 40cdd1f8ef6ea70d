/*
 * Runs before the page of the wall screen, which only shows.
 */

import { contextBridge } from 'electron';
import { BRIDGE } from '../../wire/window-bridge.ts';
import { deckBridge } from './deck-bridge.ts';
import { pageObserver, tellWhenPainted } from './paint.ts';

contextBridge.exposeInMainWorld(BRIDGE, deckBridge());
tellWhenPainted(pageObserver());
