/*
 * What the coach saves: the dialog for it says what is saved. Left alone Electron writes the address of what is
 * downloaded there (ElectronDownloadManagerDelegate), and a page's own file has one that tells nobody anything.
 */

import type { Session } from 'electron';

export function nameSaveDialogs(session: Session): void {
  session.on('will-download', (_, item) => item.setSaveDialogOptions({ title: `Save ${item.getFilename()}` }));
}
