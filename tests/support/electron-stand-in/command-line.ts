/*
 * The command line as Chromium reads it: every word that looks like a switch is one, wherever it stands, and
 * the display server is chosen by what stands there before the program has a say.
 */

/** Names without their dashes. Linux's own is added where none is given, as ui::SetOzonePlatformForLinuxIfNeeded does. */
export function commandLineSwitches(
  words: readonly string[],
  { platform, env }: Pick<NodeJS.Process, 'platform' | 'env'>,
): Map<string, string> {
  const switches = new Map<string, string>();
  for (const word of words) {
    const [, name, value = ''] = /^--([^=]+)(?:=(.*))?$/s.exec(word) ?? [];
    if (name !== undefined) switches.set(name, value);
  }
  if (platform === 'linux' && !switches.has('ozone-platform')) switches.set('ozone-platform', displayServer(env));
  return switches;
}

/** The session's kind decides only where both servers are there, or neither. */
function displayServer(env: NodeJS.ProcessEnv): string {
  const [hasWayland, hasX] = [Boolean(env['WAYLAND_DISPLAY']), Boolean(env['DISPLAY'])];
  const isWayland = hasWayland === hasX ? env['XDG_SESSION_TYPE'] === 'wayland' : hasWayland;
  return isWayland ? 'wayland' : 'x11';
}

/**
 * How a second process's words reach the first: switches first, one of Chromium's own among them, then the
 * rest, so that a word that belonged to a switch stands apart from it (electron/electron#20322, #32933).
 */
export function asTheFirstHearsThem([executable = '', ...words]: readonly string[]): string[] {
  const isSwitch = (word: string): boolean => word.startsWith('-');
  return [
    executable,
    ...words.filter(isSwitch),
    '--allow-file-access-from-files',
    ...words.filter((word) => !isSwitch(word)),
  ];
}
