/*
 * In the worker: answers one question after the other.
 */

import { createReading, type Asked } from './reading.ts';

const answer = createReading();

self.onmessage = ({ data }: MessageEvent<Asked>) => self.postMessage(answer(data));
