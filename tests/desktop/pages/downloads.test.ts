import { EventEmitter } from 'node:events';
import type { Session } from 'electron';
import { expect, test } from 'vitest';
import { nameSaveDialogs } from '../../../app/desktop/pages/downloads.ts';

test('[save] the dialog says what is saved, by its file name', () => {
  const session = new EventEmitter();
  nameSaveDialogs(session as unknown as Session);
  const titles: (string | undefined)[] = [];
  const item = {
    getFilename: () => 'harbour-squad.csv',
    setSaveDialogOptions: ({ title }: Electron.SaveDialogOptions) => titles.push(title),
  };
  session.emit('will-download', {}, item);
  expect(titles).toEqual(['Save harbour-squad.csv']);
});
