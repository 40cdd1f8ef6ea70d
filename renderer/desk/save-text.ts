/*
 * Saves a file among the browser's downloads.
 */

export function saveText(name: string, text: string, type: 'text/plain' | 'text/csv'): void {
  const url = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // By then the browser has read it.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
