/*
 * What goes wrong where it must not stop anything else: said on the console once, not sixty times a second.
 */

/** So many different ones are told apart: an error with a time in its words would fill the memory in an evening. */
const MOST = 100;

const told = new Set<string>();

/** `where`: what could not be done, for whoever reads the console: "drawing the head". */
export function reportMishap(where: string, error: unknown): void {
  const words = `${where}: ${error instanceof Error ? error.message : String(error)}`;
  if (told.has(words) || told.size >= MOST) return;
  told.add(words);
  console.error(`Lanecall, ${words}`, error);
}

/** The same call, of which a throw is reported and goes no further. */
export function guarded<Args extends readonly unknown[]>(
  where: string,
  call: (...args: Args) => void,
): (...args: Args) => void {
  return (...args) => {
    try {
      call(...args);
    } catch (error) {
      reportMishap(where, error);
    }
  };
}
