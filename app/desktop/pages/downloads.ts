/*
 * Gives the save dialog a title that names the file. Electron's own title is the download's address
 * (ElectronDownloadManagerDelegate), which says nothing to a coach where the page itself made the file.
 */

import type { Session } from 'electron';

export function nameSaveDialogs(session: Session): void {
  session.on('will-download', (_, item) => item.setSaveDialogOptions({ title: `Save ${item.getFilename()}` }));
}
