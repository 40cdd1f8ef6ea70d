/*
 * The version of the program and what it carries of others, as the build wrote it down.
 */

/** Rejects where the host does not answer, or the program was not built whole. */
export async function readLicences(): Promise<string> {
  const response = await fetch('/licences');
  if (!response.ok) throw new Error(`The licences are not here: ${response.status}`);
  return response.text();
}
